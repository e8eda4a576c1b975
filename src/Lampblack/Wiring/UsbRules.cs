using System;
using System.Collections.Generic;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Parts;

namespace Lampblack.Wiring;

/// <summary>What is to be said of a panel as a game controller.</summary>
internal static class UsbRules
{
    /// <summary>Whether the chip could be one, and lacks numbers to call itself by.</summary>
    public static IEnumerable<Finding> Numbers(ControllerWish wish)
    {
        if (wish.Controller.Chip == ControllerChip.ATmega32U4 && (wish.UsbVendorId is null || wish.UsbProductId is null))
        {
            var isHalf = wish.UsbVendorId is not null || wish.UsbProductId is not null || wish.EncodersStrike;
            const string Why = "numbers belong to who paid for them, and none is free to use";
            const string Do = "write yours, `usb-vendor` and `usb-product`, in `[controller]`; without them the panel talks over its serial line alone";
            yield return isHalf
                ? Finding.Warn("usb-numbers-missing", "the panel does not become a game controller: `usb-vendor` and `usb-product` are needed both, and " + Why, Do, wish.Span)
                : Finding.Note("usb-numbers-missing", $"the {wish.Controller.Name} could be a game controller by its own USB, but has no vendor's and product's numbers: {Why}", Do, wish.Span);
        }
    }

    /// <summary>Controls that the report has no room for.</summary>
    public static IEnumerable<Finding> Room(PinPlan pins, ControllerWish wish)
    {
        foreach (var plan in pins.Controllers)
        {
            var left = UsbNumbers.Of(pins, plan).Where(one => !UsbNumbers.IsSent(one)).Select(one => one.ItemId).Distinct().ToList();
            if (left.Count > 0)
            {
                yield return Finding.Note(
                    "usb-room",
                    FormattableString.Invariant($"as a game controller the panel has {UsbNumbers.MostAxes} axes and {UsbNumbers.MostButtons} buttons; {left.Count} of its controls have none: {string.Join(", ", left.Take(5))}{(left.Count > 5 ? ", ..." : string.Empty)}"),
                    "they are told over the serial line; `usb-encoders = \"buttons\"` keeps axes free",
                    wish.Span);
            }
        }
    }
}
