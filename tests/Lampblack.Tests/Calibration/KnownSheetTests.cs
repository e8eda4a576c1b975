using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Printers;
using Xunit;

namespace Lampblack.Tests.Calibration;

/// <summary>A sheet of paper that is photographed again is still one sheet: it tells nothing of how sheets scatter.</summary>
public sealed class KnownSheetTests
{
    private const double SdMm = 0.02;

    [Theory]
    [InlineData(1, 1, 0.03, true)]
    [InlineData(null, 1, 0.03, true)]
    [InlineData(1, null, -0.03, true)]
    [InlineData(1, 2, 0.03, false)]
    [InlineData(1, 1, 0.2, false)]
    [InlineData(1, 1, -0.12, false)]
    public void A_sheet_is_known_again_by_its_number_and_by_where_side_2_lies(int? first, int? second, double apartMm, bool isKnown)
    {
        var once = Evening.Fine(Evening.NewFile, Photos(Sheet(first, 0.3, SdMm))).File;
        var again = Evening.Learn(once, Photos(Sheet(second, 0.3 + apartMm, SdMm)));
        Assert.False(again.HasStop);
        Assert.Equal(isKnown ? 1 : 2, RegisterEstimate.Of(again.Value.File).Sheets);
        Assert.Equal(isKnown, again.Findings.Any(finding => finding is { Code: "sheet-known", Severity: Severity.Note }));
    }

    [Fact]
    public void Of_a_sheet_that_was_seen_twice_the_photos_that_tell_most_count()
    {
        var once = Evening.Fine(Evening.NewFile, Photos(Sheet(1, 0.3, 0.05))).File;
        var both = Evening.Fine(once, Photos(Sheet(1, 0.32, 0.01))).File;
        var better = Evening.Fine(Evening.NewFile, Photos(Sheet(1, 0.32, 0.01))).File;
        Assert.Equal(RegisterEstimate.Of(better).ShiftRightMm, RegisterEstimate.Of(both).ShiftRightMm, 12);
        Assert.Equal(RegisterEstimate.Of(better).ShiftRightSdMm, RegisterEstimate.Of(both).ShiftRightSdMm, 12);
        Assert.Equal(RegisterEstimate.Of(better).Scatter, RegisterEstimate.Of(both).Scatter);

        // Poorer photos of the same sheet change nothing.
        var poorer = Evening.Fine(both, Photos(Sheet(1, 0.31, 0.04))).File;
        Assert.Equal(RegisterEstimate.Of(both).ShiftRightMm, RegisterEstimate.Of(poorer).ShiftRightMm, 12);
    }

    [Fact]
    public void Sheets_made_before_the_second_look_are_still_known_by_their_number()
    {
        var once = Evening.Fine(Evening.NewFile, Photos(Sheet(1, 0.3, 0.05))).File;
        var both = Evening.Fine(once, Photos(Sheet(1, 0.36, 0.01))).File;
        Assert.Equal((1, 2), (once.Revision, both.Revision));
        Assert.Equal(RegisterEstimate.Of(once).ShiftRightMm, RegisterEstimate.Of(both, 1).ShiftRightMm, 12);
    }

    [Fact]
    public void Blacks_growth_and_colours_of_a_known_sheet_count_once()
    {
        var file = Evening.Fine(Evening.NewFile, Photos(Seen(1, 0.3))).File;
        var again = Evening.Fine(file, Photos(Seen(1, 0.31))).File;
        Assert.Equal((1, 1, 1), (WedgeEstimate.Of(again).Sheets, GainEstimate.Of(again).Sheets, PlanesEstimate.Of(again).Sheets));
        Assert.Equal(GainEstimate.Of(file).SdMm, GainEstimate.Of(again).SdMm, 12);
        var other = Evening.Fine(again, Photos(Seen(2, 0.32))).File;
        Assert.Equal((2, 2, 2), (WedgeEstimate.Of(other).Sheets, GainEstimate.Of(other).Sheets, PlanesEstimate.Of(other).Sheets));
        Assert.Equal(2, RegisterEstimate.Of(other).Sheets);
    }

    [Fact]
    public void A_second_look_that_tells_less_takes_nothing_away()
    {
        var full = Sheet(1, 0.3, SdMm) with
        {
            Patches = [new("front-K-vector", 1.4, 0.02, false), new("both-400-vector", 2.6, 0, true)],
            Planes = [new('C', 0, 60, 0.04, 0.02, 0.01), new('M', 0, 60, -0.03, 0.01, 0.01)],
        };
        var less = Sheet(1, 0.31, SdMm) with { Patches = [new("front-K-vector", 1.41, 0.01, false), new("both-400-vector", 2.4, 0, true)], Planes = [new('C', 0, 60, 0.05, 0.02, 0.005)] };
        var file = Evening.Fine(Evening.Fine(Evening.NewFile, Photos(full)).File, Photos(less)).File;
        Assert.Equal(['C', 'M'], PlanesEstimate.Of(file).Known);
        Assert.Equal(1, PlanesEstimate.Of(file).Sheets);
        Assert.Equal((1.41, 0.01), (WedgeEstimate.Of(file).Patch("front-K-vector")!.Density, WedgeEstimate.Of(file).Patch("front-K-vector")!.UncertaintyDensity));
        Assert.Equal((2.6, true), (WedgeEstimate.Of(file).Patch("both-400-vector")!.Density, WedgeEstimate.Of(file).Patch("both-400-vector")!.IsLowerBound));
    }

    [Fact]
    public void What_is_of_one_sheet_stays_so_in_the_file()
    {
        var again = Evening.Fine(Evening.Fine(Evening.NewFile, Photos(Seen(3, 0.3))).File, Photos(Seen(3, 0.31))).File;
        var read = PrinterFileReader.Read("study.toml", PrinterFileWriter.Write(again).AsSpan());
        Assert.Empty(read.Findings);
        Assert.Equal([3, 3], read.Value.Register.Select(entry => entry.Copy));
        Assert.Equal((1, 1, 1, 1), (RegisterEstimate.Of(read.Value).Sheets, WedgeEstimate.Of(read.Value).Sheets, GainEstimate.Of(read.Value).Sheets, PlanesEstimate.Of(read.Value).Sheets));
    }

    private static TypedAnswers Photos(PhotographedSheet sheet) => TypedAnswers.Nothing with { Sheets = [sheet] };

    private static PhotographedSheet Seen(int copy, double rightMm) => Sheet(copy, rightMm, SdMm) with
    {
        Patches = [new("front-K-vector", 1.4 + rightMm, 0.02, false)],
        Gain = new(0.05, 0.05, 0.004),
        Planes = [new('C', 0, 60, 0.04, 0.02, 0.01)],
    };

    private static PhotographedSheet Sheet(int? copy, double rightMm, double sdMm) => new(
        "one.jpg",
        Evening.A4,
        [.. new[] { (-80, -115), (80, -115), (80, 115), (-80, 115) }.Select(place => new RegisterReading(place.Item1, place.Item2, rightMm, -0.1, sdMm)).ToImmutableArray()]) { Copy = copy };
}
