using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Parts;

/// <summary>docs/parts.md is written from the catalogue: with LAMPBLACK_UPDATE=1 the test writes it, otherwise it compares.</summary>
public sealed class PartsPageTests
{
    private const string UpdateCommand = "LAMPBLACK_UPDATE=1 dotnet test --project tests/Lampblack.Tests -- --filter-class \"*PartsPageTests\"";

    [Fact]
    public void The_page_of_parts_is_in_step_with_the_catalogue()
    {
        var path = Path.Combine(Root(), "docs", "parts.md");
        var page = Page();
        if (Environment.GetEnvironmentVariable("LAMPBLACK_UPDATE") == "1")
        {
            File.WriteAllText(path, page);
        }

        Assert.True(File.Exists(path), $"{path} is missing; run: {UpdateCommand}");
        Assert.True(page == File.ReadAllText(path), $"docs/parts.md is out of step; run: {UpdateCommand}");
    }

    private static string Page()
    {
        var sources = SourceNumbers();
        var text = new StringBuilder();
        text.Append(
            $"""
            # Parts

            Components one can buy, by class and dimension. A desk file names a part by its id (`part = "toggle-mini-on-on"`).
            This page is written from the catalogue; to write it anew: `{UpdateCommand}`.

            **Before drilling, measure the part in your hand.** Parts of one name differ between makers, and the part's own data sheet wins over
            this table. A figure is only as good as its source. The last column names it: first for the hole, then, after the semicolon, for the rest.
            M is from memory, P is common practice without a source, numbers are in the list at the end. Sockets are for low voltage and data; nothing here is for mains.

            All sizes in mm. *Hole* is the main opening (with its tolerance upwards), then a key notch and further holes, each with its place from the
            middle seen from the front, x to the right and y up. *Covers* is the nut, washer or bezel in front, and how far it reaches past the hole's edge where it reaches
            least. *Paper* is the opening in the paper: 0.5 mm beyond the hole all round, less where little is covered, none where the edge stays in sight.
            *Behind* is width x height x depth. *Panel* is the thickest panel, paper and glue included. *Moves* is poles, positions and turn: toggles go from up to down (the
            middle position's legend stands to the right), selectors and potentiometers turn clockwise and symmetrically about straight up.


            """);
        foreach (var group in PartCatalogue.BuiltIn.All.GroupBy(part => part.Class))
        {
            text.Append(CultureInfo.InvariantCulture, $"## {Heading(group.Key)}\n\n");
            text.Append("| id | what it is | hole | covers | paper | behind | panel | moves | sources |\n");
            text.Append("|---|---|---|---|---|---|---|---|---|\n");
            foreach (var part in group)
            {
                text.Append(CultureInfo.InvariantCulture, $"| `{part.Id}` | {part.Name} | {Hole(part)} | {Covers(part)} | {Paper(part)} | {Behind(part)} | {Number(part.LargestPanelThickness)} | {Moves(part)} | {Sources(part, sources)} |\n");
            }

            text.Append('\n');
        }

        text.Append("## Sources\n\n");
        foreach (var (source, number) in sources)
        {
            text.Append(CultureInfo.InvariantCulture, $"{number}. {source}\n");
        }

        return text.ToString().ReplaceLineEndings("\n").TrimEnd('\n') + "\n";
    }

    /// <summary>Every source but memory and practice, numbered in the order in which the catalogue first names it.</summary>
    private static List<(string Source, int Number)> SourceNumbers() =>
    [
        .. PartCatalogue.BuiltIn.All.SelectMany(part => part.Figures()).Select(pair => pair.Figure.Source)
            .Distinct(StringComparer.Ordinal)
            .Where(source => Letter(source) is null)
            .Select((source, index) => (source, index + 1)),
    ];

    private static string? Letter(string source) => source switch
    {
        "from memory" => "M",
        "common practice, no source" => "P",
        _ => null,
    };

    private static string Heading(PartClass kind) => kind switch
    {
        PartClass.Toggle => "Toggles",
        PartClass.PushButton => "Push-buttons",
        PartClass.KeySwitch => "Key switches",
        PartClass.Rotary => "Selectors",
        PartClass.Potentiometer => "Potentiometers",
        PartClass.Encoder => "Encoders",
        PartClass.Slider => "Slide potentiometers",
        PartClass.Lamp => "Lamps",
        PartClass.Meter => "Meters",
        PartClass.Display => "Displays",
        PartClass.Connector => "Connectors",
        PartClass.Screw => "Screws",
        PartClass.Plain => "Plain holes, plugs and grommets",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    private static string Hole(Part part)
    {
        var text = new StringBuilder(part.Cutout.SizeText);
        if (part.Cutout.TolerancePlus is { } plus)
        {
            text.Append(CultureInfo.InvariantCulture, $" (+{Number(plus)})");
        }

        if (part.Key is { } key)
        {
            text.Append(CultureInfo.InvariantCulture, $"; notch {Number(key.Width)} wide, {Number(key.Depth)} deep {(key.DirectionDegrees == 90 ? "on top" : "at the bottom")}");
        }

        foreach (var hole in part.ExtraHoles)
        {
            text.Append(CultureInfo.InvariantCulture, $"; {Number(hole.Diameter)} at {hole.XMm:0.###}, {hole.YMm:0.###} ({hole.Purpose})");
        }

        return text.ToString();
    }

    private static string Covers(Part part)
    {
        var knob = part.KnobDiameter is { } diameter ? $"; knob {Number(diameter)}" : "";
        return (part.Bezel is { } bezel
            ? string.Create(CultureInfo.InvariantCulture, $"{bezel.SizeText} (+{part.CoverMm:0.0})")
            : "-") + knob;
    }

    private static string Paper(Part part) => part.PaperPunchMm is { } punch
        ? punch.ToString("0.###", CultureInfo.InvariantCulture)
        : part.PaperMarginMm > 0 ? string.Create(CultureInfo.InvariantCulture, $"knife, +{part.PaperMarginMm:0.0}") : "knife";

    private static string Behind(Part part) => part.Body is { } body
        ? $"{Number(body.Width)} x {Number(body.Height)} x {Number(body.Depth)}"
        : "-";

    private static string Moves(Part part)
    {
        string[] words =
        [
            part.Poles > 0 ? $"{part.Poles} {(part.Poles == 1 ? "pole" : "poles")}" : "",
            part.Positions is { } set && part.Class is PartClass.Rotary ? string.Create(CultureInfo.InvariantCulture, $"{set.Count} x {set.StepDegrees} degrees") : "",
            part.Positions is { } places && part.Class is not PartClass.Rotary ? $"{places.Count} positions" : "",
            part.SweepDegrees is { } sweep ? string.Create(CultureInfo.InvariantCulture, $"{sweep} degrees") : "",
            part.Travel is { } travel ? $"{Number(travel)} mm" : "",
            part.Momentary ? "springs back" : "",
            part.PushesDefault ? "pushes" : "",
            part.Illuminated ? "lit" : "",
        ];
        var moves = string.Join(", ", words.Where(word => word.Length > 0));
        return moves.Length == 0 ? "-" : moves;
    }

    private static string Sources(Part part, List<(string Source, int Number)> sources)
    {
        var figures = part.Figures();
        static bool IsOfHole(string what) =>
            what.StartsWith("hole", StringComparison.Ordinal) || what.StartsWith("key", StringComparison.Ordinal) || what.StartsWith("extra", StringComparison.Ordinal);
        string Keys(bool ofHole) => string.Join(" ", figures
            .Where(pair => IsOfHole(pair.What) == ofHole)
            .Select(pair => pair.Figure.Source)
            .Distinct(StringComparer.Ordinal)
            .Select(source => Letter(source) ?? sources.Find(entry => entry.Source == source).Number.ToString(CultureInfo.InvariantCulture)));
        var rest = Keys(ofHole: false);
        return Keys(ofHole: true) + (rest.Length == 0 ? "" : $"; {rest}");
    }

    private static string Number(Figure? figure) => figure?.Mm.ToString("0.###", CultureInfo.InvariantCulture) ?? "-";

    private static string Root()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (File.Exists(Path.Combine(folder.FullName, "Lampblack.slnx")))
            {
                return folder.FullName;
            }
        }

        throw new DirectoryNotFoundException("no folder above the tests holds Lampblack.slnx");
    }
}
