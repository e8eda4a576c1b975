using System;
using System.IO;

namespace Lampblack.Cli;

/// <summary>Asks a person at the terminal, one question after the other.</summary>
/// <param name="input">Where answers come from.</param>
/// <param name="output">Where questions go.</param>
internal sealed class Prompt(TextReader input, TextWriter output)
{
    /// <summary>Whether somebody sits at the terminal who can be asked.</summary>
    internal static bool CanAsk => !Console.IsInputRedirected && !Console.IsOutputRedirected;

    /// <summary>The terminal that the program was started in.</summary>
    internal static Prompt Here() => new(Console.In, Console.Out);

    /// <summary>Says something between two questions.</summary>
    /// <param name="line">A sentence.</param>
    internal void Tell(string line) => output.WriteLine($"  {line}");

    /// <summary>Asks until the answer is fine.</summary>
    /// <param name="question">The question, without its mark.</param>
    /// <param name="usual">What an empty answer means; may be empty itself.</param>
    /// <param name="problem">Why an answer will not do, as a sentence; null where it will.</param>
    /// <exception cref="EndOfStreamException">There are no more answers.</exception>
    internal string Ask(string question, string usual, Func<string, string?> problem)
    {
        while (true)
        {
            output.Write(usual.Length > 0 ? $"{question} [{usual}] " : $"{question} ");
            output.Flush();
            string answer = (input.ReadLine() ?? throw new EndOfStreamException("The answers ended.")).Trim();
            answer = answer.Length == 0 ? usual : answer;
            if (problem(answer) is not { } told)
            {
                return answer;
            }

            Tell(told);
        }
    }
}
