using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Text;
using Lampblack.Artwork;
using Lampblack.Geometry;
using Lampblack.Sheets;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Register;

/// <summary>Hatches as an independent rasteriser prints them at 600 dpi in black only.</summary>
public sealed class HatchedSheetTests
{
    private static readonly string[] Inks = ["amber", "red", "green", "blue", "cyan", "yellow", "orange", "leaf"];

    [Fact]
    public void The_ranges_of_the_kiln_differ_in_how_bright_they_are_and_in_how_they_are_made()
    {
        var desk = SeparatedDesk.Of(File.ReadAllBytes(Path.Combine(SeparatedDesk.Root, "examples", "kiln", "desk.toml")), "gray");
        var looks = Looks(desk);
        Assert.Equal(2, looks.Count);
        Assert.True(Math.Abs(looks[0].Bare - looks[1].Bare) > 0.1, $"{looks[0]} and {looks[1]} are as bright");
        Assert.True(Structure(looks[0], looks[1]), $"{looks[0]} and {looks[1]} are made alike");
    }

    [Fact]
    public void All_patterns_are_told_apart_on_the_narrowest_dial()
    {
        var ranges = string.Join(", ", Inks.Select((ink, place) => $"{{ from = {place}, to = {place + 0.8}, ink = \"{ink}\" }}"));
        var desk = SeparatedDesk.Of(
            Encoding.UTF8.GetBytes($"lampblack = 1\n[inks]\nleaf = [60, 0, 90, 0]\n[[panel]]\nid = \"p\"\nsize = [120, 120]\n[[panel.dial]]\nat = [60, 60]\nradius = 40\nfrom = 0\nto = 8\nmark-length = 2\nranges = [{ranges}]\n"), "gray");
        var looks = Looks(desk);
        Assert.Equal(HatchPatterns.Count, looks.Count);
        foreach (var (first, second) in looks.SelectMany((first, place) => looks.Skip(place + 1).Select(second => (first, second))))
        {
            Assert.True(Structure(first, second) || Math.Abs(first.Bare - second.Bare) > 0.12, $"{first} and {second} look alike");
        }
    }

    [Fact]
    public void No_misregister_up_to_the_spread_covers_a_line_of_a_hatch()
    {
        var desk = SeparatedDesk.Of(
            Encoding.UTF8.GetBytes("lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [60, 40]\n[[panel.area]]\nbox = [5, 5, 12, 9]\nrole = \"lit\"\nink = \"red\"\n[[panel.dial]]\nat = [40, 20]\nradius = 10\nranges = [{ from = 1, to = 5, ink = \"green\" }, { from = 6, to = 10, ink = \"blue\" }]\n"), "gray");
        var plates = new SheetPlates(desk, desk.Sheets[0]);
        foreach (var step in Enumerable.Range(0, 8))
        {
            var there = new Point<SheetSpace>(0, 0).Polar(desk.SpreadMm - 0.01, step * 45);
            Assert.Equal(0, plates.Covered(plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Shift(there.XMm, there.YMm))));
        }

        var here = plates.MaskAfter(Affine<SheetSpace, SheetSpace>.Identity);
        Assert.Equal(0, plates.Leaking(here));
        Assert.Equal(0, plates.Bare(here));
    }

    /// <summary>Each differs from the other where its period along the range is another by a quarter, its lines lean another way, or its edge and middle are another.</summary>
    private static bool Structure(Look first, Look second) =>
        Math.Max(first.PeriodMm, second.PeriodMm) > 1.25 * Math.Min(first.PeriodMm, second.PeriodMm)
        || Math.Abs(first.LeanMm - second.LeanMm) > 0.3
        || Math.Abs(first.EdgeLessMiddle - second.EdgeLessMiddle) > 0.3;

    private static List<Look> Looks(SeparatedDesk desk)
    {
        var sheet = desk.Sheets[0];
        var page = PageOf(sheet, desk);
        return [.. desk.Panels[0].Artwork.Marks.Where(mark => mark.Course is not null).Select(mark => LookOf(mark.Course!, sheet.Panels[0].Map, page))];
    }

    private static InkPlates PageOf(Sheet sheet, SeparatedDesk desk) => GhostscriptPlates.Render(
        Lampblack.Formats.PdfFile.Write([SheetPdf.FrontPage(sheet, desk.Printer)], new("hatches", Lampblack.Formats.PdfSides.OneSided)).AsSpan(), SeparatedDesk.Dpi)[0];

    /// <summary>Walks along a range on three tracks, without its ends, and takes what is bare as 1.</summary>
    private static Look LookOf(RingCourse course, Affine<PanelSpace, SheetSpace> map, InkPlates page)
    {
        const double StepMm = 0.02;
        var steps = (int)((course.LengthMm - 2) / StepMm);
        var tracks = new[] { -0.35, 0, 0.35 }.Select(across => Enumerable.Range(0, steps).Select(step =>
        {
            var degrees = ((course.FromClockDegrees + course.ToClockDegrees) / 2) + (((step * StepMm) - (course.LengthMm / 2) + 1) / course.MiddleRadiusMm * 180 / Math.PI);
            var at = map.Apply(course.Centre.Polar(course.MiddleRadiusMm + (across * course.WidthMm), 90 - degrees));
            return page.AtMm(at.XMm, at.YMm, SeparatedDesk.Dpi).Black == 0 ? 1.0 : 0;
        }).ToArray()).ToArray();
        var changes = tracks[1].Zip(tracks[1].Skip(1)).Count(pair => pair.First != pair.Second);
        var lean = Enumerable.Range(-40, 81).MaxBy(shift => Same(tracks[0], tracks[2], shift)) * StepMm;
        return new(
            tracks.Average(track => track.Average()),
            changes == 0 ? 99 : 2.0 * steps * StepMm / changes,
            changes == 0 ? 0 : lean,
            ((tracks[0].Average() + tracks[2].Average()) / 2) - tracks[1].Average());
    }

    /// <summary>How well the inner track fits the outer one moved along; of equal fits the smallest move.</summary>
    private static double Same(double[] inner, double[] outer, int shift) => Enumerable.Range(50, inner.Length - 100)
        .Average(step => inner[step] == outer[step + shift] ? 1.0 : 0) - (Math.Abs(shift) * 1e-6);

    /// <summary>What one sees of a hatch.</summary>
    private sealed record Look(double Bare, double PeriodMm, double LeanMm, double EdgeLessMiddle);
}
