using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.Books;

/// <summary>Some contacts of a plug, with all wires that hang on them, and a picture to follow them by.</summary>
/// <param name="Contacts">The contacts.</param>
/// <param name="Wires">Their wires, contact by contact, from the plug on.</param>
/// <param name="Picture">Each contact as a chain of tags.</param>
internal sealed record WireGroup(ImmutableArray<PlugContact> Contacts, ImmutableArray<PlannedWire> Wires, BookPicture Picture);

/// <summary>
/// A panel's wires as chains: from a contact of the plug a line goes on from tag to tag, with each wire's number, and what is soldered between tag and line stands there.
/// As large as it is printed: no letter is smaller than <see cref="SmallestMm"/>.
/// </summary>
internal static class WireChains
{
    /// <summary>Size of letters, in mm as printed on A4 and Letter: 7.4 points.</summary>
    public const double LetterMm = 2.6;

    /// <summary>The same for long names: 6.7 points.</summary>
    public const double SmallestMm = 2.35;

    /// <summary>Width of a drawing, in mm as printed.</summary>
    public const double WidthMm = 180;

    // Two of them stand on a page.
    private const double MostHighMm = 104;
    private const double ContactMm = 23;
    private const double StepMm = 31;
    private const double BoxMm = 29.6;
    private const double LineMm = 5;
    private const int InRow = 5;

    /// <summary>The groups of a panel.</summary>
    /// <param name="panel">Its wires.</param>
    /// <param name="hole">The number of an item's hole.</param>
    public static ImmutableArray<WireGroup> Of(PanelWires panel, Func<string, string> hole)
    {
        var (groups, open) = (ImmutableArray.CreateBuilder<WireGroup>(), new List<Chain>());
        var shelf = new Shelf();
        foreach (var contact in panel.Plug!.Contacts)
        {
            var chain = new Chain(contact, [.. panel.Wires.Where(wire => wire.Net == contact.Net)]);
            if (open.Count > 0 && !shelf.Takes(chain, MostHighMm))
            {
                groups.Add(Drawn(panel, open, hole));
                (open, shelf) = ([], new());
            }

            shelf.Put(chain);
            open.Add(chain);
        }

        groups.Add(Drawn(panel, open, hole));
        return groups.ToImmutable();
    }

    private static WireGroup Drawn(PanelWires panel, List<Chain> chains, Func<string, string> hole)
    {
        var (plug, shelf) = (panel.Plug!.Name, new Shelf());
        var places = chains.ConvertAll(chain => (Chain: chain, At: shelf.Put(chain)));
        var pen = new ActPen(WidthMm, shelf.HighMm);
        foreach (var (chain, (x, y)) in places)
        {
            Draw(pen, chain, plug, x, y, hole);
        }

        var (first, last) = (chains[0].Contact.Number, chains[^1].Contact.Number);
        var which = first == last ? FormattableString.Invariant($"contact {first}") : FormattableString.Invariant($"contacts {first} to {last}");
        return new(
            [.. chains.Select(chain => chain.Contact)],
            [.. chains.SelectMany(chain => chain.Wires)],
            pen.Picture($"Wires of {panel.Laid.Panel.Title} from plug {plug}, {which}, as chains from tag to tag", $"{plug}, {which}: a box is a tag, with the number of the hole, the part, and the tag's name; the number on a line is the wire's.{Signs(chains)}"));
    }

    /// <summary>Signs are explained where they occur.</summary>
    private static string Signs(IEnumerable<Chain> chains)
    {
        var between = chains.SelectMany(chain => chain.Wires).Select(wire => wire.To.Inline).ToHashSet();
        return (between.Contains(InlinePart.Resistor) ? " A rectangle is a resistor, with its ohms: the next wire starts at its end on the line." : string.Empty)
            + (between.Contains(InlinePart.DiodeToTerminal) || between.Contains(InlinePart.DiodeToWire) ? " A triangle with a bar is a diode, the bar its band: the next wire starts at its end on the line." : string.Empty);
    }

    private static void Draw(ActPen pen, Chain chain, string plug, double leftMm, double topMm, Func<string, string> hole)
    {
        var contact = string.Create(CultureInfo.InvariantCulture, $"{plug} · {chain.Contact.Number}");
        Head(pen, leftMm, topMm, contact, chain.Contact.Net, chain.Wires.IsEmpty ? string.Empty : chain.Wires[0].Colour);
        var from = leftMm + ContactMm - 2;
        foreach (var (index, wire) in chain.Wires.Index())
        {
            var (row, column) = (index / InRow, index % InRow);
            var y = topMm + (row * chain.RowMm);
            if (column == 0 && row > 0)
            {
                Head(pen, leftMm, y, contact, "goes on", wire.Colour);
                from = leftMm + ContactMm - 2;
            }

            var box = leftMm + ContactMm + (column * StepMm);
            var tap = box + (BoxMm / 2);
            pen.Line(from, y + LineMm, tap, y + LineMm, 0.6)
                .Words(column == 0 ? from + 5 : (from + tap) / 2, y + LineMm - 1.1, wire.Number.ToString(CultureInfo.InvariantCulture), isBold: true, anchor: "middle", sizeMm: 3);
            var name = $"{hole(wire.To.Item)} {Name(wire.To.Item)}";
            var sizeMm = ActPen.Fitting(name, BoxMm - 1, LetterMm) == name ? LetterMm : SmallestMm;
            Between(pen, wire.To, tap, y + LineMm, chain.StubMm);
            var top = y + LineMm + chain.StubMm;
            pen.Box(box, top, BoxMm, 8.2, ActPen.Paper, 0.3)
                .Words(box + 1, top + 3.3, ActPen.Fitting(name, BoxMm - 1, sizeMm), sizeMm: sizeMm)
                .Words(box + 1, top + 6.8, $"tag {wire.To.Terminal}", isBold: true, sizeMm: LetterMm);
            if (column == InRow - 1 && index < chain.Wires.Length - 1)
            {
                pen.Arrow(tap, y + LineMm, WidthMm - 0.5, y + LineMm);
            }

            from = tap;
        }
    }

    private static void Head(ActPen pen, double leftMm, double topMm, string contact, string net, string colour) => pen
        .Box(leftMm + 0.3, topMm + 1, ContactMm - 2.6, 11.4, ActPen.Wood, 0.3)
        .Words(leftMm + 1.2, topMm + 4.2, contact, isBold: true, sizeMm: LetterMm).Words(leftMm + 1.2, topMm + 7.6, net, sizeMm: LetterMm).Words(leftMm + 1.2, topMm + 11, colour, sizeMm: LetterMm);

    /// <summary>What is soldered between the line and the tag below it.</summary>
    private static void Between(ActPen pen, WireEnd end, double xMm, double lineMm, double stubMm)
    {
        pen.Circle(xMm, lineMm, 0.6, ActPen.Ink).Line(xMm, lineMm, xMm, lineMm + stubMm, 0.6);
        var (high, low) = (lineMm + 1.9, lineMm + 5.1);
        switch (end.Inline)
        {
            case InlinePart.Resistor:
                pen.Box(xMm - 1.2, high - 0.4, 2.4, low - high + 0.8, ActPen.Paper).Words(xMm + 2.2, low - 0.6, string.Create(CultureInfo.InvariantCulture, $"{end.InlineOhms:0.#} Ω"), sizeMm: LetterMm);
                break;
            case InlinePart.DiodeToWire:
                pen.Trace($"M{xMm - 1.6:0.##} {low:0.##}h3.2L{xMm:0.##} {high:0.##}z", ActPen.Ink, 0.2).Line(xMm - 1.8, high, xMm + 1.8, high, 0.8);
                break;
            case InlinePart.DiodeToTerminal:
                pen.Trace($"M{xMm - 1.6:0.##} {high:0.##}h3.2L{xMm:0.##} {low:0.##}z", ActPen.Ink, 0.2).Line(xMm - 1.8, low, xMm + 1.8, low, 0.8);
                break;
        }
    }

    private static string Name(string item) => item[(item.IndexOf('/', StringComparison.Ordinal) + 1)..];

    /// <summary>A contact and the wires that follow from it.</summary>
    private sealed record Chain(PlugContact Contact, ImmutableArray<PlannedWire> Wires)
    {
        public double StubMm => Wires.Any(wire => wire.To.Inline != InlinePart.None) ? 7 : 2.2;

        public double RowMm => LineMm + StubMm + 10.4;

        public double WideMm => ContactMm + (StepMm * Math.Clamp(Wires.Length, 1, InRow));

        public double HighMm => Math.Max(RowMm * Math.Max(1, (Wires.Length + InRow - 1) / InRow), 14.5);
    }

    /// <summary>Chains side by side as long as there is room, then a row further down.</summary>
    private sealed class Shelf
    {
        private double _xMm;
        private double _yMm;
        private double _rowMm;

        public double HighMm => _yMm + _rowMm;

        public bool Takes(Chain chain, double mostMm) => _xMm + chain.WideMm <= WidthMm ? _yMm + Math.Max(_rowMm, chain.HighMm) <= mostMm : HighMm + chain.HighMm <= mostMm;

        public (double XMm, double YMm) Put(Chain chain)
        {
            if (_xMm + chain.WideMm > WidthMm + 1e-9)
            {
                (_xMm, _yMm, _rowMm) = (0, HighMm, 0);
            }

            var at = (_xMm, _yMm);
            (_xMm, _rowMm) = (_xMm + chain.WideMm, Math.Max(_rowMm, chain.HighMm));
            return at;
        }
    }
}
