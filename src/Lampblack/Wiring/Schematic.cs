using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Circuits;
using Lampblack.Desks;
using Lampblack.Geometry;

namespace Lampblack.Wiring;

/// <summary>How everything is joined, pin by pin: the matrix as a grid, all else as lines from a pin to 0 V.</summary>
public static class Schematic
{
    /// <summary>Stands below.</summary>
    public const string Caution = "Caution: low voltage only. The controller's 5V and 0V go to nothing but these parts. Never solder while anything is plugged in.";

    private const double MarginMm = 10;
    private const double RoomMm = CircuitDrawing.WidthMm - (2 * MarginMm);
    private const double TextMm = 2.2;
    private const double SmallMm = 1.9;
    private const double LaneMm = 76;
    private const double EntryMm = 13;
    private const double RowMm = 15;
    private const double LabelMm = 22;
    private const double AdapterMm = 6;
    private const double AdapterWordMm = 42;
    private const double AdapterWireMm = 30;

    /// <summary>Draws it.</summary>
    /// <param name="plan">The pins.</param>
    /// <param name="needs">What they were planned for.</param>
    /// <param name="nets">What is joined.</param>
    /// <param name="desk">The desk.</param>
    public static CircuitDrawing Of(PinPlan plan, ImmutableArray<WiredNeed> needs, WireNets nets, Desk desk)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(desk);
        var pen = new CircuitPen();
        var title = $"{desk.Title}: wiring";
        pen.Word(title, MarginMm, MarginMm + 4, 4.5, 0, RoomMm);
        var y = MarginMm + 14;
        foreach (var controller in plan.Controllers)
        {
            y = pen.Paragraph(Summary(controller), MarginMm, y, TextMm, RoomMm) + 4;
            var names = needs.ToDictionary(need => need.Id, need => need.Name);
            if (!controller.Columns.IsEmpty)
            {
                y = Matrix(pen, controller, needs, y);
            }

            y = Entries(pen, controller, nets, names, y) + 2;
            y = Adapter(pen, [.. nets.Adapters.Where(wire => wire.Controller == controller.Index)], y);
        }

        foreach (var sentence in AtController.Of(plan, needs))
        {
            y = pen.Paragraph(sentence, MarginMm, y, TextMm, RoomMm) + 1;
        }

        y = pen.Paragraph(Caution, MarginMm, y + 3, TextMm, RoomMm);
        var heightMm = Math.Ceiling(y + MarginMm);
        return new(title, heightMm, Up(pen.Wires), Up(pen.Parts), Up(pen.Words));

        ImmutableArray<Region<DrawingSpace>> Up(IEnumerable<Region<DrawingSpace>> shapes) => [.. shapes.Select(shape => shape.Map(Affine<DrawingSpace, DrawingSpace>.Shift(0, heightMm)))];
    }

    private static string Summary(ControllerPlan plan)
    {
        var lines = plan.Columns.IsEmpty ? string.Empty : $" in {Count(plan.Rows.Length, "row")} and {Count(plan.Columns.Length, "column")}";
        var parts = new[]
        {
            (plan.Contacts.Length, "contact", lines), (plan.Encoders.Length, "encoder", string.Empty), (plan.Wipers.Length, "knob", string.Empty), (plan.Ladders.Length, "ladder", string.Empty),
            (plan.Indicators.Length, "indicator", string.Empty), (plan.Dimmers.Count(dimmer => !dimmer.IsMeter), "dimmed channel", string.Empty),
            (plan.Dimmers.Count(dimmer => dimmer.IsMeter), "meter", string.Empty), (plan.DataLines.Length, "data line", string.Empty),
        };
        return $"Controller {Digits(plan.Index + 1)}: {plan.Chip}; {string.Join(", ", parts.Where(part => part.Item1 > 0).Select(part => Count(part.Item1, part.Item2) + part.Item3))}. Link at {Digits(plan.Baud)} bits a second on D0 and D1.";
    }

    private static string Count(int count, string what) => $"{Digits(count)} {what}{(count == 1 ? string.Empty : "s")}";

    /// <summary>Rows run from the left, columns come down; at each crossing a contact and its diode, which lets current from row to column.</summary>
    private static double Matrix(CircuitPen pen, ControllerPlan plan, ImmutableArray<WiredNeed> needs, double topMm)
    {
        var step = Math.Min(34, (RoomMm - LabelMm) / plan.Columns.Length);
        var (first, bottom) = (topMm + 12, topMm + 12 + (plan.Rows.Length * RowMm));
        foreach (var (column, pin) in plan.Columns.Index())
        {
            var x = Right(column);
            pen.Word($"C{Digits(column + 1)} = {pin.Header}", x, topMm + 2, TextMm, 0.5, step - 1);
            pen.Wire((x, topMm + 5), (x, bottom - 4));
        }

        foreach (var (row, pin) in plan.Rows.Index())
        {
            var y = first + (row * RowMm);
            pen.Word($"R{Digits(row + 1)} = {pin.Header}", MarginMm, y, TextMm, 0, LabelMm - 2);
            pen.Wire((MarginMm + LabelMm - 2, y), (Right(plan.Columns.Length - 1) - 4, y));
        }

        var counts = needs.ToDictionary(need => need.Id);
        foreach (var group in plan.Contacts.GroupBy(contact => contact.ItemId))
        {
            foreach (var (index, contact) in group.Index())
            {
                if (contact.Place is not MatrixInput place)
                {
                    continue;
                }

                var (x, y) = (Right(place.Column), first + (place.Row * RowMm));
                var start = x - Math.Min(22, step - 6);
                pen.Dot(start, y);
                pen.Wire((start, y), (start, y + 5), (start + 2, y + 5));
                pen.Contact(start + 2, y + 5);
                var end = start + 7;
                if (plan.Diodes)
                {
                    pen.Wire((end, y + 5), (x - 6, y + 5));
                    pen.PlainDiode(x - 4, y + 5);
                    end = x - 2;
                }

                pen.Wire((end, y + 5), (x, y + 5));
                pen.Dot(x, y + 5);
                var need = counts[contact.ItemId];
                var says = need.Contacts.Length == 1 ? need.Name : $"{need.Name}: {need.Positions[need.Contacts[index].Closed.IndexOf(true)]}";
                pen.Word(says, x - 1.5, y + 9.6, SmallMm, 1, step - 3);
            }
        }

        return bottom + 3;

        double Right(int column) => MarginMm + LabelMm + ((column + 1) * step) - 3;
    }

    private static double Entries(CircuitPen pen, ControllerPlan plan, WireNets nets, Dictionary<string, string> names, double topMm)
    {
        var entries = nets.Nets.Where(net => net.Controller == plan.Index && net.Role == NetRole.Signal).SelectMany(net => net.Terminals.Select(terminal => (net, terminal))).ToList();
        var (lanes, y) = ((int)(RoomMm / LaneMm), topMm);
        foreach (var (index, (net, terminal)) in entries.Index())
        {
            var (x, middle) = (MarginMm + (index % lanes * LaneMm), topMm + (index / lanes * EntryMm) + 6);
            pen.Word(net.Name, x, middle, TextMm, 0, 11);
            pen.Wire((x + 12, middle), (x + 16, middle));
            Symbol(pen, plan, net, terminal, x + 16, middle);
            pen.Word($"{names[terminal.ItemId]}, tag {terminal.Terminal}", x + 12, middle + 4.6, SmallMm, 0, LaneMm - 14);
            y = middle + 9;
        }

        return y;
    }

    /// <summary>From the adapter's contacts to the controller's pins.</summary>
    private static double Adapter(CircuitPen pen, ImmutableArray<AdapterWire> wires, double topMm)
    {
        foreach (var (index, wire) in wires.Index())
        {
            var y = topMm + 4 + (index * AdapterMm);
            pen.Word($"{AdapterWire.Adapter} {wire.From}", MarginMm, y, TextMm, 0, AdapterWordMm - 2);
            pen.Wire((MarginMm + AdapterWordMm, y), (MarginMm + AdapterWordMm + AdapterWireMm, y));
            pen.Word($"{wire.Name}, {wire.Colour}", MarginMm + AdapterWordMm + (AdapterWireMm / 2), y - 2.2, SmallMm, 0.5, AdapterWireMm);
            pen.Word(wire.Pin, MarginMm + AdapterWordMm + AdapterWireMm + 2, y, TextMm, 0, 12);
        }

        return wires.IsEmpty ? topMm : topMm + 4 + (wires.Length * AdapterMm);
    }

    /// <summary>From a pin's wire to 0 V.</summary>
    private static void Symbol(CircuitPen pen, ControllerPlan plan, WireNet net, NetTerminal terminal, double x, double y)
    {
        switch (terminal)
        {
            case var _ when net.IsLocal || plan.DataLines.Any(line => line.ItemId == terminal.ItemId):
                pen.Word(net.IsLocal ? "data from one pixel to the next" : terminal.InlineOhms > 0 ? string.Create(CultureInfo.InvariantCulture, $"data, {terminal.InlineOhms:0.#} ohms in the line; not driven") : "data; not driven", x + 2, y, SmallMm, 0, 44);
                break;
            case { Inline: InlinePart.Resistor }:
                pen.Resistor(x + 5, y);
                pen.Word(string.Create(CultureInfo.InvariantCulture, $"{terminal.InlineOhms:0.#}"), x + 5, y, 1.6, 0.5, 9);
                pen.Wire((x + 10, y), (x + 15, y));
                pen.Diode(x + 15 + CircuitPen.DiodeHalfMm, y);
                Zero(x + 15 + (2 * CircuitPen.DiodeHalfMm));
                break;
            case var _ when plan.Wipers.Any(wiper => wiper.ItemId == terminal.ItemId):
                pen.Word("wiper; its ends to 0V and 5V", x + 2, y, SmallMm, 0, 44);
                break;
            case var _ when plan.Ladders.FirstOrDefault(ladder => ladder.ItemId == terminal.ItemId) is { } ladder:
                pen.Word(string.Create(CultureInfo.InvariantCulture, $"selector, {ladder.Windows.Length} x {LadderDesign.Of(ladder.Windows.Length)!.Ohms:0.#} from 0V to 5V"), x + 2, y, SmallMm, 0, 44);
                break;
            default:
                pen.Contact(x, y);
                Zero(x + 5);
                break;
        }

        void Zero(double from)
        {
            pen.Wire((from, y), (x + 30, y));
            pen.Word("0V", x + 31.5, y, TextMm, 0, 6);
        }
    }

    private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);
}
