using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;

namespace Lampblack.Wiring;

/// <summary>One axis or button of the panel as a game controller.</summary>
/// <param name="IsAxis">Whether it is an axis.</param>
/// <param name="Number">From 0. Axes and buttons are counted apart.</param>
/// <param name="ItemId">The control.</param>
/// <param name="Meaning">What moves it, or while what the button is held.</param>
public sealed record UsbNumber(bool IsAxis, int Number, string ItemId, string Meaning);

/// <summary>Which control is which axis and button. firmware/source/pad.c counts in the same order.</summary>
public static class UsbNumbers
{
    /// <summary>Axes of the report.</summary>
    public const int MostAxes = 8;

    /// <summary>Buttons of the report.</summary>
    public const int MostButtons = 128;

    private static readonly ImmutableArray<string> AxisNames = ["X", "Y", "Z", "Rx", "Ry", "Rz", "slider", "dial"];

    /// <summary>All that a controller would need, those beyond the report's end too; nothing where it is no game controller.</summary>
    /// <param name="pins">The desk's pins.</param>
    /// <param name="plan">One of its controllers.</param>
    public static ImmutableArray<UsbNumber> Of(PinPlan pins, ControllerPlan plan)
    {
        ArgumentNullException.ThrowIfNull(pins);
        ArgumentNullException.ThrowIfNull(plan);
        if (plan.Usb is not { } usb)
        {
            return [];
        }

        var mine = pins.Controls.Where(control => control.Controller == plan.Index).ToList();
        var axes = plan.Wipers.Select(wiper => (wiper.ItemId, "its travel"));
        var buttons = plan.Contacts.Select((contact, number) => (contact.ItemId, Held(mine, number)))
            .Concat(plan.Ladders.SelectMany((ladder, index) => Positions(mine, ladder, index)));
        if (usb.EncodersStrike)
        {
            buttons = buttons.Concat(plan.Encoders.SelectMany(encoder => new[] { (encoder.ItemId, "a click clockwise"), (encoder.ItemId, "a click counter-clockwise") }));
        }
        else
        {
            axes = axes.Concat(plan.Encoders.Select(encoder => (encoder.ItemId, "its turns")));
        }

        return
        [
            .. axes.Select((axis, number) => new UsbNumber(true, number, axis.Item1, axis.Item2)),
            .. buttons.Select((button, number) => new UsbNumber(false, number, button.Item1, button.Item2)),
        ];
    }

    /// <summary>The same as a table for people and other programs: buttons counted from 1, as computers show them.</summary>
    /// <param name="pins">The desk's pins.</param>
    public static ImmutableArray<byte> Table(PinPlan pins)
    {
        ArgumentNullException.ThrowIfNull(pins);
        return CsvFile.Write(
            ["controller", "axis or button", "control", "meaning"],
            pins.Controllers.SelectMany(plan => Of(pins, plan).Where(IsSent).Select(one => (IEnumerable<string>)
            [
                Digits(plan.Index + 1), one.IsAxis ? "axis " + AxisNames[one.Number] : "button " + Digits(one.Number + 1), one.ItemId, one.Meaning,
            ])));
    }

    /// <summary>Whether the report has room for it.</summary>
    /// <param name="one">An axis or button.</param>
    public static bool IsSent(UsbNumber one)
    {
        ArgumentNullException.ThrowIfNull(one);
        return one.Number < (one.IsAxis ? MostAxes : MostButtons);
    }

    /// <summary>In which states a contact is closed.</summary>
    private static string Held(List<WiredControl> controls, int contact)
    {
        var control = controls.FirstOrDefault(control => control.Contacts.Contains(contact));
        var at = control?.Contacts.IndexOf(contact) ?? -1;
        return at < 0 ? "closed" : string.Join(", ", control!.States.Where(state => state.Closed[at]).Select(state => state.Name));
    }

    private static IEnumerable<(string ItemId, string Meaning)> Positions(List<WiredControl> controls, PlannedLadder ladder, int index)
    {
        var control = controls.FirstOrDefault(control => control is { Kind: WiredKind.States, Contacts.IsEmpty: true } && control.Number == index);
        return ladder.Windows.Select((_, position) => (ladder.ItemId, control is not null && position < control.States.Length ? control.States[position].Name : Digits(position + 1)));
    }

    private static string Digits(int number) => number.ToString(CultureInfo.InvariantCulture);
}
