using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Fabrication;
using Lampblack.Findings;
using Lampblack.Layout;

namespace Lampblack.Tests.Fabrication;

/// <summary>Charts of desks that a test writes down.</summary>
internal static class Fabricated
{
    /// <summary>Every form of opening, turned and straight.</summary>
    internal const string EveryForm = """
        [[panel]]
        id = "all"
        size = [400, 280]
        corner = 6
        fixings = { part = "screw-m4", inset = 10 }
        [[panel.control]]
        id = "notched"
        part = "toggle-mini-on-on-keyed"
        at = [50, 230]
        turn = 20
        [[panel.control]]
        id = "flats"
        part = "key-19"
        at = [130, 230]
        [[panel.control]]
        id = "slot"
        part = "slider-60"
        at = [200, 200]
        turn = 15
        [[panel.control]]
        id = "window"
        part = "meter-48x24"
        at = [300, 230]
        [[panel.control]]
        id = "screen"
        part = "display-20x4"
        at = [110, 110]
        turn = 10
        [[panel.control]]
        id = "pot"
        part = "pot-10-turn"
        at = [260, 110]
        [[panel.control]]
        id = "large"
        part = "button-22-lit"
        at = [330, 110]
        """;

    internal static Checked<HoleChart> Chart(string panels, string before = "")
    {
        var desk = DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes($"lampblack = 1\n{before}\n{panels}"));
        Xunit.Assert.DoesNotContain(desk.Findings, finding => finding.Severity == Severity.Stop);
        var laid = DeskLayout.Place(desk.Value, FontShelf.Bundled);
        return HoleChart.Of(laid.Value.Panels[0], desk.Value.Bench);
    }

    internal static ChartHole Hole(this HoleChart chart, string label) => chart.Holes.Single(hole => hole.Label == label);
}
