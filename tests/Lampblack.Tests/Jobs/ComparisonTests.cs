using System;
using System.Linq;
using System.Text;
using System.Text.Json;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Jobs;

public sealed class ComparisonTests
{
    private const string Desk = SecondTime.Desk;
    private const string Fits = "holes unchanged, the drilled plate still fits";

    /// <summary>Each case: what is replaced in the desk by what, and the sentence on the panel `dome`.</summary>
    public static TheoryData<string, string, string> Edits => new()
    {
        { "\"SHUTTER\"", "\"SHUTTERS\"", $"mask and front changed; {Fits}" },
        { "cover = 0.95", "cover = 0.9", $"front changed, mask unchanged; {Fits}" },
        { "at = [30, 25]", "at = [33, 25]", "mask and front changed; holes changed (shutter moved 3 mm): a plate drilled before does not fit" },
        { "at = [30, 25]", "at = [30, 25]\ndrilled = [0.3, 0]", "mask and front changed; holes put where they were drilled (shutter), the drilled plate fits" },
        { "toggle-mini-on-on", "button-16-lit", "mask and front changed; holes changed (shutter has another hole): a plate drilled before does not fit" },
        { "inset = 6", "inset = 7", "mask and front changed; holes changed (fixings changed): a plate drilled before does not fit" },
        { "size = [120, 60]\nfixings = { hole = 3.4, inset = 6 }", "size = [120, 62]\nfixings = { hole = 3.4, at = [[6, 6], [114, 6], [6, 54], [114, 54]] }", "mask and front changed; the plate changed from 120 x 60 mm to 120 x 62 mm: cut a new one; holes unchanged" },
        { "\"dome\"\nsize = [120, 60]\nfixings = { hole = 3.4, inset = 6 }", "\"dome\"\nsize = [120, 60]\ncorner = 4\nfixings = { hole = 3.4, inset = 6 }", $"mask and front unchanged; the plate changed from 120 x 60 mm to 120 x 60 mm (corners 4): cut a new one; holes unchanged" },
        { "[[panel.legend]]\ntext = \"RAIN\"", "[[panel.control]]\nid = \"fan\"\npart = \"hole-6\"\nat = [80, 15]\n[[panel.legend]]\ntext = \"RAIN\"", "mask and front changed; new holes (fan), the others unchanged: drill the new ones into the plate" },
        { "[[panel.control]]\npart = \"pot-9mm\"\nat = [60, 25]\nlegend = \"DEW\"\n", "", "mask and front changed; holes changed (control-2 is gone): a plate drilled before does not fit" },
    };

    [Theory]
    [MemberData(nameof(Edits))]
    public void What_an_edit_changes_is_told_panel_by_panel(string old, string fresh, string sentence)
    {
        Assert.Contains(old, Desk, StringComparison.Ordinal);
        var result = SecondTime.Then(Desk, Desk.Replace(old, fresh, StringComparison.Ordinal));
        Assert.Empty(result.Stops());
        Assert.Equal($"panel dome: {sentence}", result.Told("dome"));
        Assert.Equal("panel yard: nothing changed", result.Told("yard"));
        Assert.Matches("^sheet-1 has (a new pair code|the pair code it had)", result.Told("sheet-1"));
    }

    [Fact]
    public void The_same_desk_again_changes_nothing() =>
        Assert.Equal([new BuildChange("", "same", "nothing changed")], SecondTime.Then(Desk, Desk).Changes);

    [Fact]
    public void Another_spread_alone_changes_the_mask_only()
    {
        var result = SecondTime.Then(Desk.Replace("hidden", "lit", StringComparison.Ordinal).Replace("cover = 0.95\n", "", StringComparison.Ordinal), Desk.Replace("hidden", "lit", StringComparison.Ordinal).Replace("cover = 0.95\n", "", StringComparison.Ordinal), SecondTime.A4 with { SpreadMm = 0.4 });
        Assert.Equal($"panel dome: only the spread changed, from 0.5 to 0.4 mm: mask changed, front unchanged; {Fits}", result.Told("dome"));
        Assert.Equal("panel yard: only the spread changed, from 0.5 to 0.4 mm: mask changed, front unchanged", result.Told("yard"));
    }

    [Fact]
    public void Another_black_alone_is_told_as_such() => Assert.Equal(
        $"panel dome: only the black changed, from safe to full: mask and front changed; {Fits}", SecondTime.Then(Desk, Desk, SecondTime.A4 with { Black = "full" }).Told("dome"));

    [Fact]
    public void A_renamed_panel_is_known_again_and_others_come_and_go()
    {
        var result = SecondTime.Then(Desk, Desk.Replace("\"dome\"", "\"roof\"", StringComparison.Ordinal).Replace("\"yard\"", "\"gate\"", StringComparison.Ordinal).Replace("\"YARD\"", "\"GATE\"", StringComparison.Ordinal));
        Assert.Equal("panel roof: it was called dome; nothing on it changed", result.Told("roof"));
        Assert.Equal("panel gate: new panel, 0 holes", result.Told("gate"));
        Assert.Equal("panel yard: panel gone", result.Told("yard"));
        Assert.Equal(["renamed", "new", "gone", "sheet"], result.Changes.Select(change => change.Kind));
    }

    [Fact]
    public void Another_place_on_the_sheet_changes_no_panel()
    {
        var cut = Desk.IndexOf("[[panel]]\nid = \"yard\"", StringComparison.Ordinal);
        var head = Desk[..Desk.IndexOf("[[panel]]", StringComparison.Ordinal)];
        var result = SecondTime.Then(Desk, head + Desk[cut..] + "\n" + Desk[head.Length..cut], SecondTime.A4 with { Paper = "Letter" });
        Assert.Equal("panel dome: nothing changed", result.Told("dome"));
        Assert.Equal("panel yard: nothing changed", result.Told("yard"));
        Assert.Equal("the paper changed from A4 to Letter", result.Told(""));
    }

    [Fact]
    public void A_control_put_in_before_an_unnamed_one_does_not_move_it()
    {
        var result = SecondTime.Then(Desk, Desk.Replace("[[panel.control]]\npart = \"pot-9mm\"", "[[panel.control]]\npart = \"hole-6\"\nat = [80, 15]\n[[panel.control]]\npart = \"pot-9mm\"", StringComparison.Ordinal));
        Assert.Equal("panel dome: mask and front changed; new holes (control-2), the others unchanged: drill the new ones into the plate", result.Told("dome"));
    }

    [Fact]
    public void Files_are_the_same_with_and_without_an_earlier_build()
    {
        var changed = Desk.Replace("\"SHUTTER\"", "\"SHUTTERS\"", StringComparison.Ordinal);
        var alone = SecondTime.Build(changed);
        var second = SecondTime.Then(Desk, changed);
        Assert.Empty(alone.Changes);
        Assert.NotEmpty(second.Changes);
        Assert.Equal(alone.Files.Select(file => file.Path), second.Files.Select(file => file.Path));
        Assert.All(alone.Files.Zip(second.Files), pair => Assert.Equal(pair.First.Bytes.AsSpan(), pair.Second.Bytes.AsSpan()));
        Assert.Equal(alone.Findings, second.Findings);
        Assert.Equal(alone.Summary, second.Summary);
    }

    [Theory]
    [InlineData("")]
    [InlineData("not JSON")]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("{}")]
    [InlineData("{\"schema\": 5}")]
    [InlineData("{\"schema\": \"another-report/1\", \"panels\": []}")]
    [InlineData("{\"schema\": \"lampblack-report/1\", \"paper\": \"A4\", \"black\": \"safe\", \"panels\": 3, \"sheets\": []}")]
    public void A_report_that_is_not_one_is_not_compared_with(string report)
    {
        var result = Build.Run(SecondTime.Source(Desk), SecondTime.A4 with { LastReport = [.. Encoding.UTF8.GetBytes(report)] }, new Progress<string>(), TestContext.Current.CancellationToken);
        Assert.Empty(result.Changes);
        Assert.Empty(result.Stops());
    }

    [Fact]
    public void A_report_damaged_anywhere_is_no_error()
    {
        const string Small = "lampblack = 1\n[[panel]]\nid = \"yard\"\nsize = [60, 40]\n[[panel.control]]\nid = \"a\"\npart = \"hole-6\"\nat = [30, 20]\ndrilled = [0.1, 0]\n[[panel.control]]\nid = \"b\"\npart = \"hole-6\"\nat = [45, 20]\n";
        var report = Encoding.UTF8.GetString(SecondTime.Report(SecondTime.Build(Small)).AsSpan());
        for (var at = 0; at < report.Length - 5; at += 97)
        {
            With(report[..at], BuildParts.None);
            With($"{report[..at]}1e999{report[(at + 3)..]}", BuildParts.None);
            With(report.Remove(at, 5), BuildParts.None);
        }

        // What the terminal would choke on, and what is there twice, is no report of ours.
        Assert.Equal(["nothing changed"], With(report, BuildParts.Print).Changes.Select(change => change.Sentence));
        Assert.Empty(With(report.Replace("\"yard\"", "\"ya\\u001brd\"", StringComparison.Ordinal), BuildParts.Print).Changes);
        Assert.Empty(With(report.Replace("\"id\": \"b\"", "\"id\": \"a\"", StringComparison.Ordinal), BuildParts.Print).Changes);

        BuildResult With(string last, BuildParts parts) => Build.Run(
            SecondTime.Source(Small),
            SecondTime.A4 with { LastReport = [.. Encoding.UTF8.GetBytes(last)], Parts = parts },
            new Progress<string>(),
            TestContext.Current.CancellationToken);
    }

    [Fact]
    public void The_report_tells_where_each_hole_is_meant_and_where_it_was_drilled()
    {
        var result = SecondTime.Build(Desk.Replace("at = [30, 25]", "at = [30, 25]\ndrilled = [\"0,3 mm\", -0.2]", StringComparison.Ordinal));
        using var report = JsonDocument.Parse(SecondTime.Report(result).AsMemory());
        var panel = report.RootElement.GetProperty("panels")[0];
        Assert.Equal("[120,60,0]", Compact(panel.GetProperty("plateMm")));
        var control = panel.GetProperty("controls")[0];
        Assert.Equal(
            ["shutter", "[30,25]", "[0.3,-0.2]", "[30.3,24.8]"],
            new[] { "id", "atMm", "drilledMm", "centreMm" }.Select(name => Compact(control.GetProperty(name))));
        Assert.Equal(JsonValueKind.Null, panel.GetProperty("controls")[1].GetProperty("drilledMm").ValueKind);
        Assert.All(new[] { "artworkHash", "frontHash", "maskHash", "holesHash", "fixingsHash" }, name => Assert.Matches("^[0-9a-f]{64}$", panel.GetProperty(name).GetString()));
    }

    private static string Compact(JsonElement element) => element.ToString().Replace(" ", "", StringComparison.Ordinal).Replace("\n", "", StringComparison.Ordinal);
}
