using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Art;

namespace Lampblack.Jobs;

/// <summary>What to make of one picture.</summary>
/// <param name="File">Its file name.</param>
public sealed record SeparateRequest(string File)
{
    /// <summary>How wide the panel is, in mm; null for the size that the picture says itself.</summary>
    public double? WidthMm { get; init; }

    /// <summary>Radius of the panel's corners, in mm.</summary>
    public double CornerMm { get; init; }

    /// <summary>Lightness (CIE L*) below which is field, and above which is bare paper; empty where the picture decides.</summary>
    public ImmutableArray<double> Levels { get; init; } = [];

    /// <summary>How much lighter than the field (L*) a dark gray may be and still be field; null for the usual.</summary>
    public double? ToleranceLightness { get; init; }

    /// <summary>Whether colours stay.</summary>
    public bool Colours { get; init; } = true;

    /// <summary>The only colours that stay, as <c>#rrggbb</c>; empty for all.</summary>
    public ImmutableArray<string> Keep { get; init; } = [];

    /// <summary>What stands where it is transparent: <c>field</c> or <c>paper</c>; null where the picture decides.</summary>
    public string? Background { get; init; }

    /// <summary>Whether it is drawn dark on light.</summary>
    public bool Invert { get; init; }

    /// <summary>Shapes whose id or class starts so are holes; null for none.</summary>
    public string? HolesNamed { get; init; }

    /// <summary>What has this colour is a hole; null for none.</summary>
    public string? HoleColour { get; init; }

    /// <summary>Holes: middle and diameter, in mm from the lower left corner.</summary>
    public ImmutableArray<(double XMm, double YMm, double DiameterMm)> Holes { get; init; } = [];
}

/// <summary>One picture as a desk of one panel, so that everything that holds for desks holds for it.</summary>
public static class Separate
{
    /// <summary>What the one panel is called.</summary>
    internal const string PanelId = "art";

    /// <summary>The largest picture that is read, in bytes.</summary>
    public const long LimitBytes = ArtFile.LimitBytes;

    /// <summary>What the desk is called in messages; nobody has it as a file.</summary>
    public const string DeskName = "(the picture)";

    /// <summary>How wide a panel is taken for where neither the maker nor the picture says it, so that reading can tell.</summary>
    private const double NoWidthMm = 100;

    /// <summary>The picture's own width where it differs from the wanted one by more than 1 %, and the wanted one; else null.</summary>
    /// <param name="request">What was asked for.</param>
    /// <param name="bytes">The picture.</param>
    public static (double OwnWidthMm, double WantedWidthMm)? OtherSize(SeparateRequest request, ImmutableArray<byte> bytes)
    {
        ArgumentNullException.ThrowIfNull(request);
        return request.WidthMm is { } wanted && ArtFile.SizeOf(bytes.AsMemory(), request.File).StatedWidthMm is { } own && ArtFile.Differs(own, wanted)
            ? (own, wanted)
            : null;
    }

    /// <summary>The desk file.</summary>
    /// <param name="request">What was asked for.</param>
    /// <param name="bytes">The picture.</param>
    public static ImmutableArray<byte> Desk(SeparateRequest request, ImmutableArray<byte> bytes)
    {
        ArgumentNullException.ThrowIfNull(request);
        var size = ArtFile.SizeOf(bytes.AsMemory(), request.File);
        var width = request.WidthMm ?? size.StatedWidthMm;
        var high = (width ?? NoWidthMm) * size.HeightShare;
        var title = Text(TitleOf(request.File));
        var text = new StringBuilder();
        Line($"lampblack = 1");
        Line($"title = {title}");
        Line($"[[panel]]");
        Line($"id = \"{PanelId}\"");
        Line($"title = {title}");
        Line($"size = [{Mm(width ?? NoWidthMm)}, {Mm(high)}]");
        Line($"corner = {Mm(request.CornerMm)}");
        Line($"[[panel.art]]");
        Line($"id = \"picture\"");
        Line($"file = {Text(request.File)}");
        Line($"at = [0, 0]");
        if (width is { } known)
        {
            Line($"width = {Mm(known)}");
        }

        if (!request.Levels.IsEmpty)
        {
            Line($"levels = {(request.Levels.Length == 1 ? Number(request.Levels[0]) : $"[{string.Join(", ", request.Levels.Select(Number))}]")}");
        }

        if (request.ToleranceLightness is { } tolerance)
        {
            Line($"tolerance = {Number(tolerance)}");
        }

        if (!request.Colours)
        {
            Line($"colours = false");
        }

        if (!request.Keep.IsEmpty)
        {
            Line($"keep = [{string.Join(", ", request.Keep.Select(Text))}]");
        }

        if (request.Background is { } background)
        {
            Line($"background = {Text(background)}");
        }

        if (request.Invert)
        {
            Line($"invert = true");
        }

        if (request.HolesNamed is { } holes)
        {
            Line($"holes = {Text(holes)}");
        }

        if (request.HoleColour is { } colour)
        {
            Line($"hole-colour = {Text(colour)}");
        }

        foreach (var diameter in request.Holes.Select(hole => hole.DiameterMm).Distinct())
        {
            // A part is defined once for each diameter; parts of a desk stand before its panels or after, as TOML has it.
            Line($"[[part]]");
            Line($"id = \"hole-{Mm(diameter).Replace('.', '-')}\"");
            Line($"hole = {Mm(diameter)}");
        }

        var panelHoles = new StringBuilder();
        foreach (var (index, (x, y, diameter)) in request.Holes.Index())
        {
            panelHoles.Append(CultureInfo.InvariantCulture, $"[[panel.control]]\nid = \"hole-{index + 1}\"\npart = \"hole-{Mm(diameter).Replace('.', '-')}\"\nat = [{Mm(x)}, {Mm(y)}]\n");
        }

        var whole = text.ToString();
        var parts = whole.IndexOf("[[part]]", StringComparison.Ordinal);
        whole = parts < 0 ? whole + panelHoles : whole[..parts] + panelHoles + whole[parts..];
        return [.. Encoding.UTF8.GetBytes(whole)];

        void Line(FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
    }

    private static string TitleOf(string file)
    {
        var dot = file.LastIndexOf('.');
        var name = dot > 0 ? file[..dot] : file;
        return name.Length is > 0 and <= 200 ? name : "Artwork";
    }

    private static string Mm(double mm) => Number(Math.Round(mm, 3, MidpointRounding.AwayFromZero));

    private static string Number(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>A basic string (TOML 1.0): what may not stand in it as it is, as its number.</summary>
    private static string Text(string text)
    {
        var quoted = new StringBuilder("\"");
        foreach (var rune in text.EnumerateRunes())
        {
            _ = rune.Value is '"' or '\\' ? quoted.Append('\\').Append((char)rune.Value)
                : rune.Value < 0x20 || rune.Value == 0x7F ? quoted.Append(CultureInfo.InvariantCulture, $"\\u{rune.Value:X4}")
                : quoted.Append(rune);
        }

        return quoted.Append('"').ToString();
    }
}
