using System;
using System.Collections.Generic;
using System.Linq;

namespace Lampblack.Cli.Commands;

/// <summary>Two words to choose from, and what people write for them: in any case of letters, with blanks, shortened as long as it is clear which is meant.</summary>
/// <param name="first">The first word.</param>
/// <param name="alsoFirst">Other words for it.</param>
/// <param name="second">The second word.</param>
/// <param name="alsoSecond">Other words for it.</param>
internal sealed class TwoWords(string first, IReadOnlyCollection<string> alsoFirst, string second, IReadOnlyCollection<string> alsoSecond)
{
    /// <summary>Why an answer is neither, as a sentence; null where it is one of them or empty.</summary>
    /// <param name="answer">The answer.</param>
    internal string? Problem(string answer) => answer.Length == 0 || Find(answer) is not null ? null : $"'{answer}' is neither {first} nor {second}.";

    /// <summary>The word that is meant; the answer itself where it is neither.</summary>
    /// <param name="answer">The answer.</param>
    internal string Meant(string answer) => Find(answer) ?? answer;

    private string? Find(string answer)
    {
        string plain = string.Join('-', answer.ToLowerInvariant().Trim('.', '!', ' ').Split([' ', '_', '-'], StringSplitOptions.RemoveEmptyEntries));
        if (plain.Length == 0)
        {
            return null;
        }

        bool isFirst = alsoFirst.Contains(plain) || first.StartsWith(plain, StringComparison.Ordinal);
        bool isSecond = alsoSecond.Contains(plain) || second.StartsWith(plain, StringComparison.Ordinal);
        return isFirst == isSecond ? null : isFirst ? first : second;
    }
}
