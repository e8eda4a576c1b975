using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Calibration;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Tests.Calibration;
using Lampblack.Tests.Jobs;
using Xunit;

namespace Lampblack.Tests.Photos;

/// <summary>What is said of photos that tell nothing, or not all, and what becomes of the desk file.</summary>
public sealed class DrilledPhotoFaultTests
{
    private static readonly TemplatePlan Page = PlateTrial.Plans(PlateTrial.Desk, "A4").Single(page => !page.IsDark);
    private static readonly DeskCamera Camera = new() { WidthPx = 2000, HeightPx = 1500, BlurPx = 0.7 };
    private static readonly ImmutableArray<PanelHole> Holes = PlateTrial.Drilled(Page, new Chance(7));
    private static readonly Lazy<byte[]> Good = new(() => Camera.Photo(new DrawnPlate(Page, Holes)));

    [Fact]
    public void The_holes_are_written_into_the_desk_and_what_moves_is_told()
    {
        var read = PlateTrial.Read(PlateTrial.Source, "dome", Good.Value);
        Assert.Empty(read.Findings.Where(finding => finding.Severity != Severity.Note).Select(finding => finding.Message));
        Assert.Equal(10, read.Value.Marks.Drilled.Length);
        Assert.Equal(10, read.Value.Moves.Length);
        var (shutter, meant) = (read.Value.Holes.Single(hole => hole.Item == "dome/shutter"), Page.Panel.Holes[0].Centre);
        Assert.Equal(Holes[0].Centre.XMm - meant.XMm, shutter.DxMm, 0.05);
        Assert.Equal(Holes[0].Centre.YMm - meant.YMm, shutter.DyMm, 0.05);
        Assert.Equal(2 * Holes[0].RadiusMm, shutter.DiameterMm, 0.1);
        var text = Encoding.UTF8.GetString(read.Value.Marks.Bytes.AsSpan());
        Assert.Contains(FormattableString.Invariant($"drilled = [{shutter.DxMm:0.##}, {shutter.DyMm:0.##}]"), text, StringComparison.Ordinal);
        Assert.Contains(read.Value.Moves, move => move.StartsWith("dome/shutter: \"SHUTTER\" moves ", StringComparison.Ordinal));

        // The page stays the same when its holes are marked: a second photo tells the same, and nothing changes any more.
        var again = PlateTrial.Read(SecondTime.Source(text), null, Good.Value);
        Assert.False(again.HasStop);
        Assert.False(again.Value.Marks.IsChanged);
        Assert.Empty(again.Value.Moves);
    }

    [Fact]
    public void Two_photos_tell_more_than_one_and_a_plate_that_moved_between_them_is_found_out()
    {
        var moved = Camera.Photo(new DrawnPlate(Page, [.. Holes.Select(hole => hole with { Centre = new(hole.Centre.XMm + 0.6, hole.Centre.YMm) })]));
        var one = PlateTrial.Read(PlateTrial.Source, null, Good.Value).Value.Holes[0].SdMm;
        var two = PlateTrial.Read(PlateTrial.Source, null, Good.Value, Good.Value);
        Assert.Empty(two.Findings);
        Assert.Equal(one / Math.Sqrt(2), two.Value.Holes[0].SdMm, 0.001);
        Assert.Contains("drilled-photos-apart", Codes(PlateTrial.Read(PlateTrial.Source, null, Good.Value, moved)));
    }

    [Fact]
    public void Holes_that_are_missing_far_off_too_small_or_all_aside_are_told()
    {
        var scene = new DrawnPlate(Page, [.. Page.Panel.Holes.Select((hole, index) => hole with
        {
            Centre = new(hole.Centre.XMm + (index == 3 ? 2.2 : index == 5 ? 4 : 0.5), hole.Centre.YMm),
            RadiusMm = hole.RadiusMm - (index == 4 ? 0.4 : 0),
        })]) { Unfilled = 2 };
        var read = PlateTrial.Read(PlateTrial.Source, null, Camera.Photo(scene));
        Assert.False(read.HasStop);
        Assert.Contains("`dome/fan`, `dome/park`", read.Findings.Single(finding => finding.Code == "drilled-hole-missing").Message.Replace(" and ", ", ", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(8, read.Value.Holes.Length);
        Assert.Equal(2.2, read.Value.Holes.Single(hole => hole.Item == "dome/lamp").DxMm, 0.05);
        Assert.Contains("drilled-far", Codes(read));
        Assert.Equal("dome/dome", read.Findings.Single(finding => finding.Code == "drilled-size").Item);
        Assert.Matches("lie 0\\.7[0-9] mm right and 0\\.0[0-2] mm ", read.Findings.Single(finding => finding.Code == "drilled-laid").Message);
    }

    [Fact]
    public void A_page_of_another_panel_or_of_an_older_desk_is_refused()
    {
        var other = PlateTrial.Desk + "[[panel]]\nid = \"yard\"\nsize = [60, 40]\n";
        Assert.Equal(["drilled-page-panel"], Codes(PlateTrial.Read(SecondTime.Source(other), "yard", Good.Value)));
        Assert.Equal(["drilled-unknown"], Codes(PlateTrial.Read(PlateTrial.Source, "yard", Good.Value)));
        var older = PlateTrial.Desk.Replace("at = [20, 30]", "at = [20, 31]", StringComparison.Ordinal);
        Assert.Equal(["drilled-page-other"], Codes(PlateTrial.Read(SecondTime.Source(older), null, Good.Value)));
    }

    [Fact]
    public void A_photo_that_is_no_good_says_why()
    {
        var scene = new DrawnPlate(Page, Holes);
        Assert.Equal(["photo-dark"], Codes(PlateTrial.Read(PlateTrial.Source, null, (Camera with { Exposure = 0.0005, Noise = 0.0001 }).Photo(scene))));
        Assert.Equal(["photo-cropped"], Codes(PlateTrial.Read(PlateTrial.Source, null, (Camera with { Fill = 1.5 }).Photo(scene))));
        Assert.Contains("photo-blurred", Codes(PlateTrial.Read(PlateTrial.Source, null, (Camera with { BlurPx = 2.25 }).Photo(scene))));
        Assert.Contains("drilled-page-bent", Codes(PlateTrial.Read(PlateTrial.Source, null, Camera.Photo(new DrawnPlate(Page, Holes) { BentMm = 0.9 }))));
        Assert.Equal(["drilled-page-none"], Codes(PlateTrial.Read(PlateTrial.Source, null, (Camera with { Fill = 0.12 }).Photo(scene))));
        Assert.Equal(["drilled-holes-unseen"], Codes(PlateTrial.Read(PlateTrial.Source, null, Camera.Photo(new DrawnPlate(Page, [])))));
        Assert.Equal(["photo-unreadable"], Codes(PlateTrial.Read(PlateTrial.Source, null, [1, 2, 3])));
    }

    [Fact]
    public void A_row_is_read_but_not_written_and_what_is_not_round_is_named()
    {
        const string Row = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [170, 60]\n[[panel.control]]\nid = \"row\"\npart = \"hole-6\"\nat = [20, 30]\nrow = { count = 3, step = 20 }\n[[panel.control]]\nid = \"one\"\npart = \"hole-6\"\nat = [100, 30]\n[[panel.control]]\nid = \"key\"\npart = \"meter-48x24\"\nat = [140, 30]\n";
        var page = PlateTrial.Plans(Row, "A4").Single(plan => !plan.IsDark);
        var read = PlateTrial.Read(SecondTime.Source(Row), null, Camera.Photo(new DrawnPlate(page, PlateTrial.Drilled(page, new Chance(3)))));
        Assert.False(read.HasStop);
        Assert.Equal(["p/row.1", "p/row.2", "p/row.3", "p/one"], read.Value.Holes.Select(hole => hole.Item));
        Assert.Equal("p/one", Assert.Single(read.Value.Marks.Drilled).Item);
        Assert.Contains("`row-1` at [20, 30]", read.Findings.Single(finding => finding.Code == "drilled-copies").Hint, StringComparison.Ordinal);
        Assert.Contains("`p/key`", read.Findings.Single(finding => finding.Code == "drilled-not-round").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_paper_without_room_for_the_page_is_told_of()
    {
        const string Wide = "lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [190, 270]\n[[panel.control]]\npart = \"hole-6\"\nat = [20, 30]\n";
        Assert.Contains(SecondTime.Build(Wide).Findings, finding => finding is { Code: "drilled-page-no-room", Severity: Severity.Note, Item: "p" });
        Assert.DoesNotContain(SecondTime.Build(Wide, SecondTime.A4 with { Paper = "A3" }).Findings, finding => finding.Code == "drilled-page-no-room");
    }

    private static string[] Codes(Checked<DrilledPhotosResult> read) => [.. read.Findings.Select(finding => finding.Code)];
}
