using System.CommandLine;
using System.Linq;
using Lampblack.Jobs;
using Lampblack.Quantities;

namespace Lampblack.Cli.Commands;

/// <summary>How a picture is to be read, and how large it is to be; the same as the keys of an art item in a desk file.</summary>
internal sealed class ArtOptions
{
    private readonly Option<string> width = new("--width") { Description = "How wide the panel is, such as 180mm or \"7 in\"; the height follows (usually the size that the drawing says itself)", HelpName = "LENGTH" };
    private readonly Option<string> corner = new("--corner") { Description = "Radius of the panel's corners", HelpName = "LENGTH" };
    private readonly Option<string> levels = new("--levels") { Description = "Below which lightness (0 to 100) is field; two numbers: above the second is bare paper (usually found from the picture)", HelpName = "L[,L]" };
    private readonly Option<string> tolerance = new("--tolerance") { Description = "How much lighter than the field (0 to 50) a dark gray may be and still be field", HelpName = "L" };
    private readonly Option<bool> noColours = new("--no-colours") { Description = "All that is not field becomes bare paper" };
    private readonly Option<string[]> keep = new("--keep") { Description = "The only colours that stay, such as \"#d04020\"; may stand several times", HelpName = "#RRGGBB" };
    private readonly Option<string> background = new("--background") { Description = "What stands where the picture is transparent: field or paper (usually found from the picture)", HelpName = "field|paper" };
    private readonly Option<bool> invert = new("--invert") { Description = "It is drawn dark on light, and what is dark is to shine" };
    private readonly Option<string> holes = new("--holes") { Description = "Shapes of an SVG whose id or class starts so are holes", HelpName = "NAME" };
    private readonly Option<string> holeColour = new("--hole-colour") { Description = "What has this colour is a hole", HelpName = "#RRGGBB" };
    private readonly Option<string[]> hole = new("--hole") { Description = "A hole: its middle from the lower left corner and its diameter, in mm; may stand several times", HelpName = "X,Y,D" };

    /// <summary>Adds the options to the command, with their checks.</summary>
    /// <param name="command">The command.</param>
    internal void AddTo(Command command)
    {
        background.AcceptOnlyFromAmong("field", "paper");
        foreach (Option<string> length in new[] { width, corner })
        {
            length.Validators.Add(result =>
            {
                string written = result.Tokens.LastOrDefault()?.Value ?? string.Empty;
                if (!LengthText.TryRead(written, out double mm, out string problem))
                {
                    result.AddError($"{length.Name}: '{written}' {problem}.");
                }
                else if (mm < 0 || (mm < 10 && length == width))
                {
                    result.AddError($"{length.Name}: '{written}' is too small.");
                }
            });
        }

        Check(levels, written => WrittenNumbers.Read(written, 1, 2) is { } two && two.All(number => number is >= 0 and <= 100) && (two.Length == 1 || two[0] < two[1]), "one lightness from 0 to 100, or two that go up, such as 35,92");
        Check(tolerance, written => WrittenNumbers.Read(written, 1, 1) is [>= 0 and <= 50], "a number from 0 to 50");
        Check(holeColour, written => ScreenColour.Read(written) is not null, "a colour such as #ff00ff");
        Check(keep, written => ScreenColour.Read(written) is not null, "a colour such as #d04020");
        Check(hole, written => WrittenNumbers.Read(written, 3, 3) is [_, _, > 0], "x, y and diameter in mm, such as 20,35.5,6.5");
        foreach (Option option in new Option[] { width, corner, levels, tolerance, noColours, keep, background, invert, holes, holeColour, hole })
        {
            command.Options.Add(option);
        }
    }

    /// <summary>The request that was made.</summary>
    /// <param name="parsed">The arguments.</param>
    /// <param name="file">The picture's name.</param>
    internal SeparateRequest RequestOf(ParseResult parsed, string file) => new(file)
    {
        WidthMm = LengthOf(parsed.GetValue(width)),
        CornerMm = LengthOf(parsed.GetValue(corner)) ?? 0,
        Levels = parsed.GetValue(levels) is { } level ? WrittenNumbers.Read(level, 1, 2)!.Value : [],
        ToleranceLightness = parsed.GetValue(tolerance) is { } most ? WrittenNumbers.Read(most, 1, 1)!.Value[0] : null,
        Colours = !parsed.GetValue(noColours),
        Keep = [.. parsed.GetValue(keep) ?? []],
        Background = parsed.GetValue(background),
        Invert = parsed.GetValue(invert),
        HolesNamed = parsed.GetValue(holes),
        HoleColour = parsed.GetValue(holeColour),
        Holes = [.. (parsed.GetValue(hole) ?? []).Select(written => WrittenNumbers.Read(written, 3, 3)!.Value).Select(three => (three[0], three[1], three[2]))],
    };

    private static void Check(Option option, System.Func<string, bool> isFine, string wanted) => option.Validators.Add(result =>
    {
        foreach (string written in result.Tokens.Select(token => token.Value).Where(written => !isFine(written)))
        {
            result.AddError($"{option.Name}: '{written}' is not {wanted}.");
        }
    });

    private static double? LengthOf(string? written) => written is not null && LengthText.TryRead(written, out double mm, out _) ? mm : null;
}
