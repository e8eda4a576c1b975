using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;

namespace Lampblack.Circuits;

/// <summary>Puts usual figures in the place of those that can't be used, and tells of each.</summary>
internal sealed class WishCheck
{
    private const int MostLamps = 10_000;

    private readonly List<CircuitIssue> _issues = [];

    private WishCheck()
    {
    }

    /// <summary>A wish that can be computed with.</summary>
    public static (CircuitWish Wish, ImmutableArray<CircuitIssue> Issues) Of(CircuitWish wish)
    {
        var check = new WishCheck();
        var usual = new CircuitWish(0, []);
        var clock = check.Number("clock in hertz", wish.ClockHertz, 100_000, 1e9, usual.ClockHertz);
        var sound = wish with
        {
            SupplyVolts = check.Number("supply in volts", wish.SupplyVolts, 0.5, 1000, 0),
            SupplyToleranceShare = check.Number("share that the supply is off", wish.SupplyToleranceShare, 0, 0.5, usual.SupplyToleranceShare),
            SupplyAmperes = wish.SupplyAmperes is { } given && check.Number("supply in amperes", given, 0.001, 1000, 0) is > 0 and var amperes ? amperes : null,
            OtherAmperes = check.Number("current of what else is fed, in amperes", wish.OtherAmperes, 0, 100, 0),
            Series = wish.Series is ResistorSeries.E12 or ResistorSeries.E96 ? wish.Series : ResistorSeries.E24,
            ResistorToleranceShare = check.Number("share that resistors are off", wish.ResistorToleranceShare, 0, 0.5, usual.ResistorToleranceShare),
            ResistorWatts = check.Number("resistors' watts", wish.ResistorWatts, 0.01, 100, usual.ResistorWatts),
            WireLengthMm = check.Number("wire's length in mm", wish.WireLengthMm, 0, 100_000, usual.WireLengthMm),
            OnwardLengthMm = check.Number("wire's length from panel to panel in mm", wish.OnwardLengthMm, 0, 100_000, 0),
            WireAwg = wish.WireAwg is { } awg && check.Number("wire's gauge number", awg, 10, 36, 0) > 0 ? awg : null,
            Box = check.Box(wish.Box),
            AmbientCelsius = check.Number("air around, in °C", wish.AmbientCelsius, -40, 100, usual.AmbientCelsius),
            ControllerVolts = check.Number("controller's volts", wish.ControllerVolts, 1.6, 6, usual.ControllerVolts),
            ClockHertz = clock,
            PwmHertz = wish.PwmHertz is { } asked && check.Number("dimming frequency in hertz", asked, 1, clock / 16, 0) is > 0 and var hertz ? hertz : null,
        };
        var channels = wish.Channels.IsDefault ? [] : wish.Channels;
        return (sound with { Channels = [.. check.Usable(sound.SupplyVolts > 0 ? channels : [])] }, [.. check._issues]);
    }

    private static bool Fits(double value, double from, double to) => value >= from && value <= to;

    private double Number(string what, double value, double from, double to, double usual)
    {
        if (Fits(value, from, to))
        {
            return value;
        }

        _issues.Add(new ValueUnusable(null, what, CircuitWords.Digits(value), $"{CircuitWords.Digits(from)} to {to.ToString("0.###", CultureInfo.InvariantCulture)}"));
        return usual;
    }

    private CircuitBox? Box(CircuitBox? box)
    {
        if (box is null || (Fits(box.WidthMm, 1, 10_000) && Fits(box.HeightMm, 1, 10_000) && Fits(box.DepthMm, 1, 10_000)))
        {
            return box;
        }

        _issues.Add(new ValueUnusable(null, "box", $"{CircuitWords.Digits(box.WidthMm)} x {CircuitWords.Digits(box.HeightMm)} x {CircuitWords.Digits(box.DepthMm)} mm", "1 to 10000 mm each way"));
        return null;
    }

    private IEnumerable<LampChannel> Usable(ImmutableArray<LampChannel> channels)
    {
        foreach (var channel in channels)
        {
            if (Fault(channel) is { } fault)
            {
                _issues.Add(fault);
            }
            else
            {
                yield return channel;
            }
        }
    }

    private static ValueUnusable? Fault(LampChannel channel)
    {
        if (channel.Count is < 1 or > MostLamps)
        {
            return new(channel.Name, "number of lamps", channel.Count.ToString(CultureInfo.InvariantCulture), "1 to 10000");
        }

        return channel.Feed switch
        {
            SingleDiodes one when !one.Curve.IsUsable || !(one.Curve.VoltsAt(one.WantedAmperes) is > 0 and < 1000) =>
                new(channel.Name, "diodes' curve", string.Create(CultureInfo.InvariantCulture, $"{one.Curve.SaturationAmperes:R} A, {one.Curve.IdealityFactor:R}, {one.Curve.SeriesOhms:R} Ω"), "a saturation current and an ideality above 0, a resistance of 0 or more"),
            SingleDiodes one when !Fits(one.WantedAmperes, 1e-5, 10) || !Fits(one.MostAmperes, 1e-5, 10) || !Fits(one.SpreadVolts, 0, 5) =>
                new(channel.Name, "diodes' currents and spread", $"{CircuitWords.Amperes(one.WantedAmperes)}, {CircuitWords.Amperes(one.MostAmperes)}, {CircuitWords.Volts(one.SpreadVolts)}", "0.01 mA to 10 A, 0 to 5 V"),
            CutStrip strip when !Fits(strip.StripVolts, 0.5, 1000) || !Fits(strip.UnitAmperes, 1e-5, 10) || strip.UnitCount is < 1 or > MostLamps =>
                new(channel.Name, "strip's figures", $"{CircuitWords.Volts(strip.StripVolts)}, {CircuitWords.Amperes(strip.UnitAmperes)}, {strip.UnitCount.ToString(CultureInfo.InvariantCulture)} in a unit", "0.5 to 1000 V, 0.01 mA to 10 A, 1 to 10000 in a unit"),
            AddressablePixels pixels when !Fits(pixels.PixelVolts, 0.5, 1000) || !Fits(pixels.PixelAmperes, 1e-5, 10) || !Fits(pixels.OwnHertz, 1, 1e7) =>
                new(channel.Name, "pixels' figures", $"{CircuitWords.Volts(pixels.PixelVolts)}, {CircuitWords.Amperes(pixels.PixelAmperes)}, {CircuitWords.Hertz(pixels.OwnHertz)}", "0.5 to 1000 V, 0.01 mA to 10 A, 1 Hz to 10 MHz"),
            SingleDiodes or CutStrip or AddressablePixels => null,
            _ => new(channel.Name, "kind of lamps", "none that is known", "single diodes, a strip to be cut, pixels"),
        };
    }
}
