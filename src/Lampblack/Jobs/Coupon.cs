using System;
using System.Text;
using Lampblack.Artwork;
using Lampblack.Desks;
using Lampblack.Layout;
using Lampblack.Printers;
using Lampblack.Separations;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>A small panel to practise on in the waste: glue, knife, drill, top coat, rubbing. It is a desk like any other, made with the build's own black and spread.</summary>
public static class Coupon
{
    /// <summary>The coupon's id in sheets and reports; no panel of a maker can have it twice on one sheet, as it stands among the spares.</summary>
    public const string Id = "practice-coupon";

    private const string Desk = """
        lampblack = 1
        title = "Practice coupon"
        order = "{0}"

        [[panel]]
        id = "practice-coupon"
        title = "PRACTICE COUPON"
        size = [60, 40]
        corner = 2

          [[panel.control]]
          id = "hole"
          part = "toggle-mini-on-on"
          at = [13, 18]
          legend = "DRILL"
          states = ["ON", "OFF"]
          height = 2

          [[panel.dial]]
          id = "dial"
          at = [43, 15.5]
          radius = 8.5
          major = 2
          minor = 1
          numeral-height = 1.8
          ranges = [ { from = 8, to = 10, ink = "amber" } ]

          [[panel.legend]]
          id = "large"
          text = "RUB ME"
          at = [30, 35]
          height = 3.5
        """;

    /// <summary>The coupon, separated as the panels are.</summary>
    /// <param name="printer">What is known of the printer.</param>
    /// <param name="black">The black build.</param>
    /// <param name="spreadMm">The spread of the openings, in mm.</param>
    /// <param name="order">The desk's order of work.</param>
    public static Printable Of(PrinterProperties printer, BlackBuild black, double spreadMm, WorkOrder order)
    {
        var letter = order switch { WorkOrder.GlueThenDrill => "A", WorkOrder.DrillThenGlue => "B", _ => "C" };
        var desk = DeskReader.Read("coupon", Encoding.UTF8.GetBytes(Desk.Replace("{0}", letter, StringComparison.Ordinal)));
        var laid = DeskLayout.Place(desk.Value, FontShelf.Bundled);
        var artwork = PanelArtwork.Draw(laid.Value.Panels[0]);
        var separation = Separator.Separate(artwork, printer, black, spreadMm, HatchKey.Of([artwork]));
        return Build.ToPrint(separation.Value, SecondPass.None);
    }
}
