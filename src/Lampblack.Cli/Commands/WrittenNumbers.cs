using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Cli.Commands;

/// <summary>Numbers as options take them: with points, commas between them, whatever the user's region writes.</summary>
internal static class WrittenNumbers
{
    /// <summary>The numbers; null where they can't be read, or are fewer or more than asked for.</summary>
    /// <param name="written">As it was typed.</param>
    /// <param name="least">How many there are at least.</param>
    /// <param name="most">How many there are at most.</param>
    public static ImmutableArray<double>? Read(string written, int least, int most)
    {
        ImmutableArray<double?> numbers =
        [
            .. written.Split(',').Select(part => double.TryParse(part, NumberStyles.Float, CultureInfo.InvariantCulture, out double number) && double.IsFinite(number) ? number : (double?)null),
        ];
        return numbers.Length >= least && numbers.Length <= most && numbers.All(number => number is not null) ? [.. numbers.Select(number => number!.Value)] : null;
    }

    /// <summary>A single number; null where there is none.</summary>
    /// <param name="written">As it was typed; null where it was not.</param>
    public static double? One(string? written) => written is not null && Read(written, 1, 1) is [var number] ? number : null;
}
