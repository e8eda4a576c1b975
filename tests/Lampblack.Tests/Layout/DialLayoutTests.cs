using System;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Layout;
using Xunit;

namespace Lampblack.Tests.Layout;

public sealed class DialLayoutTests
{
    [Fact]
    public void A_linear_dial_spreads_its_values_evenly_over_its_sweep()
    {
        // MIL-HDBK-759B 5.2.2.3.1.4.1 allows steps of 1, 2 or 5; the angles are arithmetic: 0 at -135, 10 at 135 degrees, 27 degrees a unit.
        var dial = Place("from = 0\nto = 10\nmajor = 2\nminor = 1\nstart = -135\nend = 135");
        var angles = dial.Dial.Marks.OrderBy(mark => mark.ClockDegrees).Select(mark => Math.Round(mark.ClockDegrees, 6)).ToList();
        Assert.Equal(Enumerable.Range(0, 11).Select(step => -135 + (27.0 * step)), angles);
        Assert.Equal(["0", "2", "4", "6", "8", "10"], dial.Words);
        Assert.Equal(6, dial.Dial.Marks.Count(mark => mark.OuterRadiusMm == dial.Dial.Marks.Max(other => other.OuterRadiusMm)));
    }

    [Fact]
    public void A_logarithmic_dial_gives_each_power_of_ten_the_same_angle_and_marks_between_them()
    {
        var dial = Place("scale = \"log\"\nfrom = 1\nto = 1000\nminor = 1\nstart = -120\nend = 120");
        Assert.Equal(["1", "10", "100", "1000"], dial.Words);
        Assert.Equal(4 + (3 * 8), dial.Dial.Marks.Length);

        // Two is 0.30103 of a decade of 80 degrees (handbook value of log10 2).
        Assert.Contains(dial.Dial.Marks, mark => Math.Abs(mark.ClockDegrees - (-120 + (80 * 0.30103))) < 1e-3);
    }

    [Fact]
    public void A_tabulated_dial_puts_its_values_where_the_table_says()
    {
        var dial = Place("scale = \"table\"\ntable = [[0, -100], [5, 20], [10, 100]]");
        Assert.Equal([-100, 20, 100], dial.Dial.Marks.Select(mark => mark.ClockDegrees));
        Assert.Equal(["0", "5", "10"], dial.Words);
    }

    [Theory]
    [InlineData(-20, 20, "−20 −10 0 10 20")]
    [InlineData(20, -20, "−20 −10 0 10 20")]
    public void Numerals_have_a_true_minus_and_no_negative_zero(double from, double to, string expected)
    {
        var dial = Place(FormattableString.Invariant($"from = {from}\nto = {to}\nmajor = 10"));
        Assert.Equal(expected, string.Join(' ', dial.Words));
    }

    [Fact]
    public void A_full_circle_names_its_first_value_only_once()
    {
        var dial = Place("from = 0\nto = 360\nmajor = 90\nstart = 0\nend = 360");
        Assert.Equal(["0", "90", "180", "270"], dial.Words);
    }

    [Fact]
    public void A_full_circle_names_its_last_value_where_it_does_not_fall_on_the_first()
    {
        var dial = Place("from = 0\nto = 360\nmajor = 100\nstart = 0\nend = 360");
        Assert.Equal(["0", "100", "200", "300"], dial.Words);
    }

    [Fact]
    public void Numerals_never_touch_the_marks()
    {
        var laid = Lay("from = 0\nto = 1000\nmajor = 100\nminor = 20\nnumeral-height = 3\nradius = 14");
        var marks = Artwork.PanelArtwork.Draw(laid).Marks;
        var dial = marks.Single(mark => mark.Name == "dial").Shape;
        Assert.All(marks.Where(mark => mark.Name != "dial"), numeral => Assert.True(dial.DistanceMm(numeral.Shape) > 0.3, numeral.Name));
    }

    [Fact]
    public void A_word_can_stand_for_a_value()
    {
        var dial = Place("from = 0\nto = 10\nmajor = 5\nlabels = { \"0\" = \"OFF\", \"10\" = \"MAX\" }");
        Assert.Equal(["OFF", "5", "MAX"], dial.Words);
    }

    private static (PlacedDial Dial, string[] Words) Place(string keys)
    {
        var laid = Lay("radius = 20\n" + keys);
        return (Assert.Single(laid.Dials), [.. laid.Texts.Select(text => text.Words)]);
    }

    private static LaidPanel Lay(string keys)
    {
        var radius = keys.Contains("radius = 14", StringComparison.Ordinal) ? keys.Replace("radius = 20\n", string.Empty, StringComparison.Ordinal) : keys;
        var text = $"lampblack = 1\n[[panel]]\nid = \"p\"\nsize = [200, 200]\n[[panel.dial]]\nat = [100, 100]\n{radius}\n";
        var desk = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes(text));
        Assert.False(desk.HasStop);
        var laid = DeskLayout.Place(desk.Value, FontShelf.Bundled);
        Assert.Empty(laid.Findings);
        return laid.Value.Panels[0];
    }
}
