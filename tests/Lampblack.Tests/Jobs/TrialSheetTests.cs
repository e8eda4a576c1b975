using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Threading;
using Lampblack.Jobs;
using Lampblack.Parts;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Jobs;

/// <summary>Trial sheet and part card, as an independent rasteriser prints them.</summary>
public sealed class TrialSheetTests
{
    private const int Dpi = 300;
    private const double DotMm = 25.4 / Dpi;

    private const double ViewsMm = 118;

    // The middle of an outline is the true edge; half of its 0.2 mm, and a dot for the rule that a touched dot is painted.
    private const double SlackMm = 0.1 + (1.5 * DotMm);

    private const string Desk = """
        lampblack = 1
        title = "Trial"
        [[panel]]
        id = "one"
        size = [100, 60]
        [[panel.control]]
        part = "meter-round-45"
        at = [35, 30]
        [[panel.control]]
        part = "hole-10"
        at = [80, 15]
        [[panel.legend]]
        text = "MAIN"
        at = [80, 45]
        height = 6
        [[panel.area]]
        box = [64, 30, 20, 6]
        ink = "amber"
        """;

    [Fact]
    public void A_trial_sheet_shows_every_hole_and_nut_at_its_true_size_where_the_production_sheet_has_it()
    {
        var build = Run(Desk);
        var page = Assert.Single(Render(build, "trial.pdf"));
        var (left, bottom) = Trim(build);
        Assert.Equal(45.5 / 2, First(page, left + 35, bottom + 30, from: 15), SlackMm);
        Assert.Equal(52.0 / 2, First(page, left + 35, bottom + 30, from: 24), SlackMm);
        Assert.Equal(5, First(page, left + 80, bottom + 15, from: 3), SlackMm);

        // The plate's edge, and the middle of the hole of 10 mm.
        Assert.Equal(20, First(page, left + 80, bottom + 15, from: 10), SlackMm);
        Assert.True(Ink(page, left + 80, bottom + 15));

        // Not mirrored: nothing stands where that hole would be then.
        Assert.Equal(double.PositiveInfinity, First(page, left + 20, bottom + 15, from: 0, to: 4.5));
    }

    [Fact]
    public void A_trial_sheet_is_printed_in_black_alone_without_a_field_and_with_filled_legends()
    {
        var build = Run(Desk);
        var page = Assert.Single(Render(build, "trial.pdf"));
        Assert.All(page.Cyan.Concat(page.Magenta).Concat(page.Yellow), amount => Assert.Equal(0, amount));
        Assert.InRange(page.Black.Average(amount => amount / 255.0), 0.001, 0.02);

        // The upright stems of letters 6 mm high are a millimetre thick or so: some run of dots is as long, and none is much longer than a stroke of M and N.
        var (left, bottom) = Trim(build);
        var runs = Runs(page, left + 70, left + 90, bottom + 45);
        Assert.InRange(runs.Max(), 0.6, 3);

        // An area is outlined, not filled.
        Assert.False(Ink(page, left + 70, bottom + 33));
        Assert.InRange(First(page, left + 70, bottom + 33, from: 0.5), 6 - SlackMm, 14 + SlackMm);
    }

    [Fact]
    public void What_lies_behind_does_not_run_through_words()
    {
        // The body's right side lies behind the words; without a body only the words are there.
        const string Words = "[[panel]]\nid = \"p\"\nsize = [100, 60]\n[[panel.control]]\npart = \"mine\"\nat = [40, 30]\n[[panel.legend]]\ntext = \"IIII IIII\"\nat = [55, 30]\nheight = 4\n";
        var behind = Run("lampblack = 1\n[[part]]\nid = \"mine\"\nhole = 6\nbody = [30, 30, 10]\n" + Words);
        var alone = Run("lampblack = 1\n[[part]]\nid = \"mine\"\nhole = 6\n" + Words);
        var (left, bottom) = Trim(behind);
        var (with, without) = (Assert.Single(Render(behind, "trial.pdf")), Assert.Single(Render(alone, "trial.pdf")));
        Assert.Equal(InkIn(without, left + 45, bottom + 27.5, 20, 5), InkIn(with, left + 45, bottom + 27.5, 20, 5));
        Assert.True(InkIn(with, left + 54.5, bottom + 16, 1, 10) > 30, "the body's side is there where no words are");
    }

    [Theory]
    [InlineData(0, 0, 1)]
    [InlineData(90, 1, 0)]
    [InlineData(180, 0, -1)]
    public void A_knob_has_a_pointer_that_turns_with_its_part(double turn, int right, int up)
    {
        var build = Run(FormattableString.Invariant($"lampblack = 1\n[[part]]\nid = \"mine\"\nclass = \"potentiometer\"\nhole = 7\nknob = 30\n[[panel]]\nid = \"p\"\nsize = [100, 60]\n[[panel.control]]\npart = \"mine\"\nat = [50, 30]\nturn = {turn}\n"));
        var page = Assert.Single(Render(build, "trial.pdf"));
        var (left, bottom) = Trim(build);
        foreach (var (x, y) in new[] { (0, 1), (1, 0), (0, -1), (-1, 0) })
        {
            Assert.Equal((x, y) == (right, up), Ink(page, left + 50 + (x * 11), bottom + 30 + (y * 11)));
        }
    }

    [Fact]
    public void A_hole_s_size_stands_in_it_or_beside_it_but_on_nothing_else()
    {
        const string Hole = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [100, 60]\n[[panel.control]]\npart = \"hole-6\"\nat = [50, 30]\n";
        var alone = Run(Hole);
        var page = Assert.Single(Render(alone, "trial.pdf"));
        var (left, bottom) = Trim(alone);
        Assert.True(InkIn(page, left + 53.2, bottom + 22, 8, 16) > 40, "the size is beside the hole");

        // Letters wherever it could stand: then it is left out, and nothing runs into the words.
        var walls = string.Concat(new[] { (50.0, 40.0), (50, 36), (50, 24), (50, 20), (36, 30), (64, 30) }.Select(at => FormattableString.Invariant($"[[panel.legend]]\ntext = \"HHHHHHHHHHHH\"\nat = [{at.Item1}, {at.Item2}]\nheight = 3.4\n")));
        var full = Run(Hole + walls);
        var bare = Run("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [100, 60]\n" + walls);
        var (holed, words) = (Assert.Single(Render(full, "trial.pdf")), Assert.Single(Render(bare, "trial.pdf")));
        Assert.Equal(InkIn(words, left + 53.4, bottom + 17, 14, 26), InkIn(holed, left + 53.4, bottom + 17, 14, 26));
    }

    [Fact]
    public void A_desk_of_two_sheets_has_two_trial_sheets()
    {
        var two = Desk.Replace("size = [100, 60]", "size = [190, 200]", StringComparison.Ordinal);
        Assert.Equal(2, Render(Run(two + "\n[[panel]]\nid = \"two\"\nsize = [190, 200]\n"), "trial.pdf").Length);
    }

    [Fact]
    public void A_part_card_shows_hole_bezel_body_and_bushing_at_their_true_sizes()
    {
        var meter = Assert.Single(Render(Run(Desk), "parts.pdf"));
        Assert.Equal([52, 45.5], RingsAtCross(meter, 70), (expected, found) => Math.Abs(expected - found) <= SlackMm);
        Assert.All(new[] { 52.0, 45 }, mm => Assert.True(RowsWithLinesApart(meter, mm) >= 60, $"{mm} mm"));

        // The way of looking can fail: there is nothing of these sizes, only chords in a few rows each.
        Assert.All(new[] { 36.0, 40, 43.5, 47, 54 }, mm => Assert.InRange(RowsWithLinesApart(meter, mm), 0, 45));

        var toggle = Assert.Single(Render(Run("lampblack = 1\n[[panel]]\nsize = [50, 50]\n[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [25, 25]\n"), "parts.pdf"));
        Assert.Equal([9.5, 6.5], RingsAtCross(toggle, 30), (expected, found) => Math.Abs(expected - found) <= SlackMm);
        Assert.All(new[] { 6.9, 12.8, 8.9, 21.7 }, mm => Assert.True(RowsWithLinesApart(toggle, mm) >= 15, $"{mm} mm"));
    }

    [Fact]
    public void A_part_card_follows_the_caliper()
    {
        const string Toggle = "[[panel]]\nsize = [50, 50]\n[[panel.control]]\npart = \"toggle-mini-on-on\"\nat = [25, 25]\n";
        var measured = Assert.Single(Render(Run("lampblack = 1\n[[caliper]]\npart = \"toggle-mini-on-on\"\nbody = [8.3, 17, 15.3]\nbushing = 10.6\n" + Toggle), "parts.pdf"));
        Assert.All(new[] { 8.3, 15.3, 10.6 }, mm => Assert.True(RowsWithLinesApart(measured, mm) >= 15, $"{mm} mm"));
        Assert.InRange(RowsWithLinesApart(measured, 12.8), 0, 14);
    }

    [Fact]
    public void A_part_card_takes_as_many_pages_as_it_needs()
    {
        var many = new StringBuilder("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [190, 260]\n");
        foreach (var (index, part) in PartCatalogue.BuiltIn.All.Where(part => part.Front().IsEmpty || part.Front().Bounds.WidthMm < 14).Take(16).Index())
        {
            many.Append(FormattableString.Invariant($"[[panel.control]]\npart = \"{part.Id}\"\nat = [{30 + (40 * (index % 4))}, {30 + (60 * (index / 4))}]\n"));
        }

        Assert.InRange(Render(Run(many.ToString()), "parts.pdf").Length, 2, 8);
    }

    [Fact]
    public void A_part_larger_than_the_card_is_told_of_in_figures_and_nothing_runs_off_the_page()
    {
        var wide = Run("lampblack = 1\n[[part]]\nid = \"wide\"\nhole = 20\nbody = [300, 100, 50]\n[[panel]]\nsize = [50, 50]\n[[panel.control]]\npart = \"wide\"\nat = [25, 25]\n");
        var page = Assert.Single(Render(wide, "parts.pdf"));
        for (var y = 15.0; y < 280; y += DotMm)
        {
            Assert.False(Ink(page, 5, y) || Ink(page, 11, y) || Ink(page, 199, y) || Ink(page, 205, y));
        }

        Assert.True(RowsWithLinesApart(page, 50) >= 15);
    }

    [Fact]
    public void A_desk_without_parts_has_no_part_card() => Assert.DoesNotContain(Run("lampblack = 1\n[[panel]]\nsize = [50, 50]\n").Files, file => file.Path == "parts.pdf");

    /// <summary>How many dots are black in a box of the page, from its lower left corner in mm.</summary>
    private static int InkIn(InkPlates page, double leftMm, double bottomMm, double widthMm, double heightMm)
    {
        var count = 0;
        for (var x = leftMm; x < leftMm + widthMm; x += DotMm)
        {
            for (var y = bottomMm; y < bottomMm + heightMm; y += DotMm)
            {
                count += Ink(page, x, y) ? 1 : 0;
            }
        }

        return count;
    }

    private static BuildResult Run(string desk, string paper = "A4")
    {
        var result = Build.Run(
            new("desk.toml", [.. Encoding.UTF8.GetBytes(desk)], new NoFiles()), new(paper, "option", Parts: BuildParts.Print), new Progress<string>(), CancellationToken.None);
        Assert.NotEmpty(result.Files);
        return result;
    }

    private static ImmutableArray<InkPlates> Render(BuildResult build, string path) =>
        GhostscriptPlates.Render(build.Files.Single(file => file.Path == path).Bytes.AsSpan(), Dpi);

    /// <summary>Where the report says that the first panel lies on its sheet.</summary>
    private static (double LeftMm, double BottomMm) Trim(BuildResult build)
    {
        using var report = JsonDocument.Parse(build.Files.Single(file => file.Path == "report.json").Bytes.AsSpan().ToArray());
        var panel = report.RootElement.GetProperty("panels")[0];
        Assert.Equal(0, panel.GetProperty("quarterTurns").GetInt32());
        var trim = panel.GetProperty("trimBoxMm");
        return (trim[0].GetDouble(), trim[1].GetDouble());
    }

    private static bool Ink(InkPlates page, double xMm, double yMm) => page.AtMm(xMm, yMm, Dpi).Black > 127;

    /// <summary>How far to the right of a place, slightly above its level, the middle of the first line is.</summary>
    private static double First(InkPlates page, double xMm, double yMm, double from, double to = 60)
    {
        for (var far = from; far < to; far += DotMm / 4)
        {
            if (Ink(page, xMm + far, yMm + 0.4))
            {
                var end = far;
                while (Ink(page, xMm + end, yMm + 0.4))
                {
                    end += DotMm / 4;
                }

                return (far + end) / 2;
            }
        }

        return double.PositiveInfinity;
    }

    private static List<double> Runs(InkPlates page, double fromMm, double toMm, double yMm)
    {
        var runs = new List<double> { 0 };
        for (var x = fromMm; x < toMm; x += DotMm)
        {
            if (Ink(page, x, yMm))
            {
                runs[^1] += DotMm;
            }
            else if (runs[^1] > 0)
            {
                runs.Add(0);
            }
        }

        return runs;
    }

    /// <summary>The diameters of the rings around the first cross from the top, the largest first: along the cross's own row, between lines on either side of it.</summary>
    private static List<double> RingsAtCross(InkPlates page, double withinMm)
    {
        for (var row = 0; row < page.HeightPx; row++)
        {
            var lines = Lines(page, row, withinMm);

            // The cross is 4 mm wide; lines are much thinner, and the top of a ring stands alone.
            if (lines.Count(line => line.LengthMm is > 3.5 and < 4.5) == 1 && lines.Count > 2 && lines.Count % 2 == 1)
            {
                return [.. Enumerable.Range(0, lines.Count / 2).Select(index => lines[^(index + 1)].LeftMm - lines[index].LeftMm)];
            }
        }

        return [];
    }

    /// <summary>The runs of ink in a row.</summary>
    private static List<(double LeftMm, double LengthMm)> Lines(InkPlates page, int row, double withinMm)
    {
        var lines = new List<(double LeftMm, double LengthMm)>();
        for (var column = 1; column < withinMm / DotMm; column++)
        {
            if (page.At(column, row).Black <= 127)
            {
                continue;
            }

            if (page.At(column - 1, row).Black <= 127)
            {
                lines.Add((column * DotMm, 0));
            }

            lines[^1] = lines[^1] with { LengthMm = lines[^1].LengthMm + DotMm };
        }

        return lines;
    }

    /// <summary>In how many rows two lines of the views, which end left of the figures, stand so far apart. A chord of a larger circle does so in few rows only.</summary>
    private static int RowsWithLinesApart(InkPlates page, double mm)
    {
        var rows = 0;
        for (var row = 0; row < page.HeightPx; row++)
        {
            var lines = Lines(page, row, ViewsMm).ConvertAll(line => line.LeftMm);

            // A row with many lines is a row of words.
            if (lines.Count is > 1 and < 14 && lines.Any(first => lines.Any(second => Math.Abs(second - first - mm) <= 0.1)))
            {
                rows++;
            }
        }

        return rows;
    }

    private sealed class NoFiles : IDeskFiles
    {
        public FileReading Read(string relativePath, long limitBytes) => new([], "is not there");
    }
}
