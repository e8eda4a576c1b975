using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Edits;
using Lampblack.Imaging;
using Lampblack.Jobs;
using Lampblack.Tests.Suites;
using SkiaSharp;
using Xunit;

namespace Lampblack.Tests.Workshop;

/// <summary>What the workshop shows of a desk is what a build prints and draws. The desks are the examples and a small invented one.</summary>
public sealed class DeskViewTests
{
    private const string Small = """
        lampblack = 1
        [lighting]
        colour = "cool-white"
        [[panel]]
        id = "p"
        size = [90, 60]
        corner = 3
          [[panel.rule]]
          box = [5, 5, 80, 50]
          title = "PUMP"
          [[panel.area]]
          box = [60, 10, 20, 12]
          ink = "amber"
          role = "lit"
          [[panel.control]]
          id = "valve"
          part = "toggle-mini-on-on"
          at = [25, 25]
          legend = "VALVE"
          states = ["OPEN", "SHUT"]
          [[panel.legend]]
          id = "fault"
          text = "FAULT"
          at = [45, 42]
          role = "hidden"
          [[panel.legend]]
          id = "word"
          text = "WORD"
          at = [70, 35]
        """;

    /// <summary>One sixteenth of the light between black and white at an edge.</summary>
    private const double EdgeStep = 1 / 16.0;

    private static readonly BuildRequest Request = new("A4", "option", Parts: BuildParts.None);

    /// <summary>
    /// The windows that an edit changes, laid over the old picture, are the new picture. A window's shapes begin at other places, so that the drawing library, which
    /// tells 16 steps of cover at an edge, rounds some edge dots the other way: none by more than a step, and hardly any at all.
    /// </summary>
    [Theory]
    [InlineData("p/valve", 11.3, 4.2)]
    [InlineData("p/valve", 0.2, 0)]
    [InlineData("p/word", -9, -20)]
    [InlineData("p/area-1", -3, 17.5)]
    public void A_window_of_the_picture_is_as_the_whole_has_it(string item, double dxMm, double dyMm)
    {
        var (before, now) = Moved(Small, item, dxMm, dyMm);
        var windows = now.DrawChanges("p", before);
        Assert.NotNull(windows);
        Assert.NotEmpty(windows.Value);
        AssertAlike(before.Draw("p")!, windows.Value, now.Draw("p")!);
    }

    [Theory]
    [InlineData("dome-desk", "dome/shutter")]
    [InlineData("dome-desk", "dome/dew")]
    [InlineData("yard-board", null)]
    [InlineData("kiln", null)]
    [InlineData("gauge", null)]
    public void Windows_of_the_examples_are_as_the_whole_has_it(string example, string? item)
    {
        var source = ExampleDesks.Source(example);
        var before = DeskView.Of(source, Request);
        item ??= before.Panels[0].Items.First(one => one.Kind == ItemKind.Control && one.Copies == 1).Address;
        var now = DeskView.Of(source with { Bytes = Edit.Apply(source, new MoveItems([new(item, 2.5, 1.5)])).Bytes }, Request);
        var panel = item.Split('/')[0];
        var windows = now.DrawChanges(panel, before);
        Assert.NotNull(windows);
        Assert.NotEmpty(windows.Value);
        Assert.True(windows.Value.Sum(window => window.WidthPx * window.HeightPx) < 0.5 * now.Panels.First(one => one.Id == panel).Frame.WidthPx * now.Panels.First(one => one.Id == panel).Frame.HeightPx);
        AssertAlike(before.Draw(panel)!, windows.Value, now.Draw(panel)!);
    }

    [Fact]
    public void What_changes_everywhere_is_drawn_anew_as_a_whole_and_what_changes_nothing_not_at_all()
    {
        var before = View(Small);
        Assert.Equal([], before.DrawChanges("p", View(Small + "\n# a remark\n")));
        Assert.Null(View(Small.Replace("[90, 60]", "[95, 60]", StringComparison.Ordinal)).DrawChanges("p", before));
        Assert.Null(View(Small.Replace("cool-white", "red", StringComparison.Ordinal)).DrawChanges("p", before));
        Assert.Null(before.DrawChanges("elsewhere", before));
    }

    /// <summary>The workshop's pictures at noon and midnight are those of a build without the scenery around them: the border of 6 mm.</summary>
    [Fact]
    public void The_workshop_shows_the_pictures_of_a_build()
    {
        var source = ExampleDesks.Alone(Encoding.UTF8.GetBytes(Small));
        var built = Build.Run(source, Request with { Parts = BuildParts.Pictures }, new Progress<string>(), TestContext.Current.CancellationToken);
        var shown = DeskView.Of(source, Request, built.SpreadsMm).Draw("p")!;
        Assert.Equal(0.5, built.SpreadsMm["p"]);
        const int Border = 48;
        const int Corner = 25; // outside of the rounded corners there is scenery
        foreach (var (name, png) in new[] { ("day", shown.DayPng), ("lit", shown.LitPng) })
        {
            using var of = Decoded(built.Files.First(file => file.Path == $"panels/p/{name}.png").Bytes);
            using var here = Decoded(png);
            Assert.Equal((720, 480), (here.Width, here.Height));
            for (var y = 0; y < here.Height; y++)
            {
                for (var x = 0; x < here.Width; x++)
                {
                    if (Math.Min(x, here.Width - x) > Corner || Math.Min(y, here.Height - y) > Corner)
                    {
                        AssertNear(of.GetPixel(x + Border, y + Border), here.GetPixel(x, y), $"{name} at {x}, {y}");
                    }
                }
            }
        }
    }

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    [InlineData("gauge")]
    public void Every_item_can_be_taken_hold_of_by_its_own_address(string example)
    {
        var view = DeskView.Of(ExampleDesks.Source(example), Request);
        Assert.NotEmpty(view.Panels);
        foreach (var panel in view.Panels)
        {
            Assert.All(panel.Items, item =>
            {
                Assert.StartsWith("M", item.Grip, StringComparison.Ordinal);
                Assert.True(item.Box.WidthMm > 0 && item.Box.HeightMm > 0, item.Address);
                Assert.NotEmpty(item.Words);
                Assert.True(item.Line > 1);
            });
            Assert.Distinct(panel.Items.Select(item => item.Address));

            // Smaller things lie above larger ones, so that each can be reached.
            Assert.Equal(panel.Items.Select(item => item.Address), panel.Items.OrderByDescending(item => item.Box.WidthMm * item.Box.HeightMm).Select(item => item.Address));
        }
    }

    [Fact]
    public void Copies_and_fixings_are_items_of_their_own_and_know_their_table()
    {
        var dome = DeskView.Of(ExampleDesks.Source("dome-desk"), Request).Panels[0];
        var guide = dome.Items.Single(item => item.Address == "dome/dew.2");
        Assert.Equal(("GUIDE", "dome/dew", 149.0), (guide.Words, guide.TableAddress, guide.Anchor.XMm));
        Assert.Equal(4, dome.Items.Count(item => item.Kind == ItemKind.Fixing));
        Assert.Equal("dome/fixing-1", dome.Items.First(item => item.Kind == ItemKind.Fixing).TableAddress);
    }

    [Fact]
    public void A_desk_with_faults_is_shown_as_far_as_it_goes()
    {
        var view = View(Small.Replace("at = [45, 42]", "at = [45, ", StringComparison.Ordinal));
        Assert.Contains(view.Findings, finding => finding.Severity == Lampblack.Findings.Severity.Stop);
        Assert.Contains(view.Panels, panel => panel.Items.Any(item => item.Address == "p/valve"));
        Assert.NotNull(view.Draw("p"));
        Assert.Empty(View("lampblack = 1\n").Panels);
        Assert.Empty(View("\u0000").Panels);
    }

    private static DeskView View(string desk) => DeskView.Of(ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk)), Request);

    private static (DeskView Before, DeskView Now) Moved(string desk, string item, double dxMm, double dyMm)
    {
        var source = ExampleDesks.Alone(Encoding.UTF8.GetBytes(desk));
        var edit = Edit.Apply(source, new MoveItems([new(item, dxMm, dyMm)]));
        Assert.NotEmpty(edit.Changes);
        return (DeskView.Of(source, Request), DeskView.Of(source with { Bytes = edit.Bytes }, Request));
    }

    private static void AssertAlike(FacePictures before, ImmutableArray<FacePictures> windows, FacePictures now)
    {
        var isSeen = false;
        foreach (var png in new Func<FacePictures, ImmutableArray<byte>>[] { picture => picture.DayPng, picture => picture.LitPng })
        {
            using var shown = Decoded(png(before));
            using var wanted = Decoded(png(now));
            isSeen |= Enumerable.Range(0, wanted.Height).Any(y => Enumerable.Range(0, wanted.Width).Any(x => shown.GetPixel(x, y) != wanted.GetPixel(x, y)));
            foreach (var window in windows)
            {
                using var fresh = Decoded(png(window));
                for (var y = 0; y < fresh.Height; y++)
                {
                    for (var x = 0; x < fresh.Width; x++)
                    {
                        shown.SetPixel(window.LeftPx + x, window.TopPx + y, fresh.GetPixel(x, y));
                    }
                }
            }

            var other = 0;
            for (var y = 0; y < wanted.Height; y++)
            {
                for (var x = 0; x < wanted.Width; x++)
                {
                    AssertNear(wanted.GetPixel(x, y), shown.GetPixel(x, y), $"at {x}, {y}");
                    other += wanted.GetPixel(x, y) == shown.GetPixel(x, y) ? 0 : 1;
                }
            }

            Assert.True(other < 0.001 * wanted.Width * wanted.Height, $"{other} dots differ");
        }

        Assert.True(isSeen, "the edit changes nothing that is seen");
    }

    private static void AssertNear(SKColor wanted, SKColor found, string where) => Assert.True(
        IsNear(wanted.Red, found.Red) && IsNear(wanted.Green, found.Green) && IsNear(wanted.Blue, found.Blue), $"{where}: {wanted} wanted, {found} found");

    private static bool IsNear(byte wanted, byte found) => Math.Abs(Srgb.Decode(wanted) - Srgb.Decode(found)) <= EdgeStep;

    private static SKBitmap Decoded(ImmutableArray<byte> png) => SKBitmap.Decode(png.AsSpan());
}
