using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The meter at two ends of this desk's cable, the board at the computer, the roll-call, and what is kept.</summary>
internal static class ProvingDrawings
{
    /// <summary>A test of the table with its leads in their places.</summary>
    public static BookPicture Meter(ContinuityTest test, string where)
    {
        var pen = new ActPen(118, 50);
        pen.Box(4, 6, 24, 38, ActPen.Wood, 0.6, 3).Box(7, 10, 18, 9, ActPen.Paper).Circle(16, 28, 5.5, ActPen.Paper).Line(16, 28, 19.4, 24.6, 0.8).Words(16, 16.4, "meter", anchor: "middle", sizeMm: 3.2)
            .Circle(11, 39.5, 1.4, ActPen.Paper).Circle(21, 39.5, 1.4, ActPen.Ink)
            .Trace($"M21 41c0 6 20 6 28 -6.4", "none", 0.9).Trace($"M11 41c0 10 34 10 36 -4c1 -8 -3 -17 2 -21", "none", 0.9, isDashed: true)
            .Line(49, 16, 57, 12, 1.6).Line(49, 34.6, 57, 31, 1.6);
        foreach (var (y, lead, end) in new[] { (12.0, "red lead (dashed)", test.Red), (31.0, "black lead", test.Black) })
        {
            pen.Box(58, y - 4, 58, 11, ActPen.Paper).Circle(60.5, y - 0.6, 1.2, ActPen.Metal).Words(63, y + 0.6, ActPen.Fitting(end, 52, End(end)), isBold: true, sizeMm: End(end)).Words(63, y + 5.2, lead, sizeMm: 3.2);
        }

        // A long name stands in smaller letters.
        static double End(string words) => words.Length > 22 ? 2.6 : ActPen.LetterMm;

        return pen.Words(58, 47.5, where, sizeMm: 3.2)
            .Picture($"A meter with its red lead at {test.Red} and its black lead at {test.Black}", $"Test {test.Number}: {Text(test.Control)}. {Text(test.Red)} against {Text(test.Black)}; the meter must say: {Text(test.Expect)}.");
    }

    /// <summary>The test that is drawn: one whose leads are both held to the cable, where there is one.</summary>
    public static ContinuityTest Shown(ImmutableArray<ContinuityTest> tests) => tests.Skip(1).Concat(tests).FirstOrDefault(test => !IsAtSocket(test) && !test.IsAtTag) ?? tests[0];

    /// <summary>What the leads are held to, in a few words.</summary>
    public static string Where(ContinuityTest test, string plug) =>
        test.IsAtTag ? "at the part itself: its tag" : IsAtSocket(test) ? "pin of the empty socket" : $"ends of the cable from {ActPen.Fitting(plug, 16)}";

    private static bool IsAtSocket(ContinuityTest test) => (test.Red + test.Black).Contains("74HC", System.StringComparison.Ordinal);

    /// <summary>The first wires of this desk at the pins of their names, and a row that is put on one pin beside.</summary>
    public static BookPicture Joints(ImmutableArray<ControllerJoint> joints)
    {
        const int Shown = 4;
        ImmutableArray<ControllerJoint> first = [.. joints.OrderBy(joint => joint.Contacts.IsEmpty).Take(Shown)];
        var pen = new ActPen(118, 52);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var isRight = left < 60;
            foreach (var (index, joint) in first.Index())
            {
                var y = 7 + (index * 9.0);
                pen.Box(left, y - 3.4, 17, 6.4, ActPen.Wood, 0.3).Words(left + 1, y + 1, ActPen.Fitting(Wire(joint), 17, 3), sizeMm: 3)
                    .Box(left + 40, y - 3.4, 13, 6.4, ActPen.Acrylic, 0.3).Words(left + 46.5, y + 1, ActPen.Fitting(joint.Place, 13, 3), isBold: true, anchor: "middle", sizeMm: 3);
                if (isRight || index < first.Length - 1)
                {
                    pen.Line(left + 17, y, left + 40, isRight ? y : y + 9, 0.7);
                }

                if (isRight)
                {
                    pen.Words(left + 28.5, y - 1.2, ActPen.Fitting(joint.Colour, 22, 3), anchor: "middle", sizeMm: 3);
                }
            }
        }

        return pen.Right(2, 47.5, "each at the pin of its row").Wrong(62, 47.5, "the row one pin beside")
            .Picture($"Wires from the plugs' contacts to the controller's pins: {string.Join(", ", first.Select(joint => $"{Wire(joint)} to {joint.Place}"))}", "From a plug’s contact (left) to the pin’s name on the board (right): four rows of the table below.");
    }

    /// <summary>A wire of a joint: from a plug's contact, else by the number that stands first.</summary>
    private static string Wire(ControllerJoint joint) => joint.Contacts.IsEmpty ? joint.Also.Split(',')[0] : joint.Contacts[0];

    /// <summary>The bare board at the computer.</summary>
    public static BookPicture Flash(PinPlan plan)
    {
        var chip = plan.Controllers[0].Chip.ToString();
        var pen = new ActPen(118, 48);
        foreach (var left in new[] { 2.0, 62.0 })
        {
            var isRight = left < 60;
            Computer(pen, left, 4, "flash");
            pen.Trace($"M{left + 20:0.##} 20c6 4 4 8 10 8", "none", 1.2);
            Board(pen, left + 30, 21, chip);
            if (!isRight)
            {
                pen.Trace($"M{left + 46:0.##} 21c0 -6 2 -8 2 -12", "none", 1).Box(left + 42, 3, 12, 6, ActPen.Black).Words(left + 40, 7.6, "panel", anchor: "end", sizeMm: 3.2);
            }
        }

        return pen.Words(22, 36, "USB", sizeMm: 3).Right(2, 44, "the bare board alone").Wrong(62, 44, "a panel hangs on it")
            .Picture($"Right: a computer, a USB cable and the bare board with its {chip}; wrong: a panel is joined to the board as well", $"The board with its {chip} while it is flashed: USB cable, and nothing else.");
    }

    /// <summary>The program asks for the first control.</summary>
    public static BookPicture RollCall(BookWiring wiring, BookFacts facts)
    {
        // Lights behind legends are no controls; a desk may have nothing else.
        var names = SpokenNames.Of(wiring.Needs);
        var name = wiring.Pins.Controls.Select(control => names.GetValueOrDefault(control.Id)).FirstOrDefault(known => known is not null) ?? "the light";
        var pen = new ActPen(118, 48);
        Computer(pen, 2, 4, "roll-call");
        pen.Trace($"M22 20c6 4 4 8 10 8", "none", 1.2);
        Board(pen, 32, 21, wiring.Pins.Controllers[0].Chip.ToString());
        pen.Trace($"M50 26c8 0 8 -8 16 -8", "none", 1.2).Box(66, 6, 48, 24, ActPen.Black, 0.5, 1.5).Circle(76, 18, 4, ActPen.Metal).Circle(90, 18, 4, ActPen.Metal).Circle(104, 18, 4, ActPen.Metal)
            .Trace($"M76 34l-3 4h2v5h2v-5h2z", ActPen.Paper).Line(76, 23, 76, 33, 0.25, isDashed: true).Words(82, 40.5, ActPen.Fitting(name, 34), isBold: true);
        var isBridge = wiring.Pins.Controllers[0].Chip == ControllerChip.ATmega32U4;
        if (isBridge)
        {
            pen.Box(34, 3, 22, 7, ActPen.Wood).Words(45, 7.8, "adapter", anchor: "middle", sizeMm: 3.2).Line(24, 6.5, 34, 6.5, 1.2).Line(45, 10, 45, 21, 0.8);
        }

        if (facts.Circuit is not null)
        {
            pen.Box(32, 38, 34, 7, ActPen.Paper, isDashed: true).Words(49, 42.8, "lamps' supply: off", anchor: "middle", sizeMm: 3.2);
        }

        return pen.Words(24, 36, "USB", sizeMm: 3)
            .Picture($"Computer, {(isBridge ? "USB-to-serial adapter, " : string.Empty)}board and panel joined; the program asks for {name}", $"Everything joined by its plugs{(isBridge ? ", the adapter beside the board's own USB" : string.Empty)}: the program asks for one control after the other, beginning with {Text(name)}.");
    }

    /// <summary>An envelope and what goes into it.</summary>
    public static BookPicture Keep(BookFacts facts)
    {
        string?[] things =
        [
            "desk.toml", facts.Wiring is null ? null : "wiring/plan.json", facts.Maker.Print == PrintWay.CopyShop ? null : "the printer's file",
            "spare sheets of this build:", $"  {string.Join(", ", facts.Print.Sheets.Take(3).Select(sheet => sheet.PairCode))}", "this book, ticked off",
        ];
        var pen = new ActPen(118, 46);
        pen.Box(4, 16, 46, 26, ActPen.Wood, 0.6).Trace($"M4 16L27 31L50 16", "none", 0.6).Box(12, 4, 30, 12, ActPen.Paper).Words(27, 11.4, ActPen.Fitting(facts.Laid.Desk.Title, 28, 3.2), anchor: "middle", sizeMm: 3.2).Arrow(46, 6, 46, 14);
        foreach (var (index, thing) in things.OfType<string>().Index())
        {
            pen.Words(58, 10 + (index * 6), thing.TrimStart(), isBold: false);
            if (!thing.StartsWith(' '))
            {
                pen.Box(53, 7.2 + (index * 6), 3, 3, ActPen.Paper);
            }
        }

        return pen.Picture($"An envelope, and what goes in: {string.Join(", ", things.OfType<string>().Select(thing => thing.Trim()))}", "What goes into the envelope: the files on a memory stick or in print, the spare sheets flat.");
    }

    private static void Computer(ActPen pen, double leftMm, double topMm, string words) =>
        pen.Box(leftMm, topMm, 22, 14, ActPen.Paper, 0.6, 1).Words(leftMm + 11, topMm + 8.2, words, anchor: "middle", sizeMm: 3.4).Trace($"M{leftMm - 0.6:0.##} {topMm + 18:0.##}l3 -4h17.2l3 4z", ActPen.Metal);

    private static void Board(ActPen pen, double leftMm, double topMm, string chip)
    {
        pen.Box(leftMm, topMm, 22, 14, ActPen.Acrylic, 0.6).Box(leftMm - 1.5, topMm + 5, 4, 4, ActPen.Metal).Words(leftMm + 11.5, topMm + 8.2, chip, anchor: "middle", sizeMm: 2.5);
        foreach (var pin in Enumerable.Range(0, 8))
        {
            pen.Circle(leftMm + 4 + (pin * 2.2), topMm + 1.5, 0.5, ActPen.Paper, 0.2).Circle(leftMm + 4 + (pin * 2.2), topMm + 12.5, 0.5, ActPen.Paper, 0.2);
        }
    }
}
