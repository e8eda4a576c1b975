using System;
using System.Globalization;

namespace Lampblack.Circuits;

/// <summary>Figures as they stand in drawings, lists and messages: three digits at most, the unit behind.</summary>
internal static class CircuitWords
{
    public static string Amperes(double amperes) => Math.Abs(amperes) < 0.9995 ? $"{Digits(amperes * 1000)} mA" : $"{Digits(amperes)} A";

    public static string Volts(double volts) => Math.Abs(volts) < 0.9995 && volts != 0 ? $"{Digits(volts * 1000)} mV" : $"{Digits(volts)} V";

    public static string Ohms(double ohms) => ohms switch
    {
        >= 999_500 => $"{Digits(ohms / 1e6)} MΩ",
        >= 999.5 => $"{Digits(ohms / 1000)} kΩ",
        >= 0.9995 => $"{Digits(ohms)} Ω",
        _ => $"{Digits(ohms * 1000)} mΩ",
    };

    public static string Watts(double watts) => watts is < 0.0995 and > 0 ? $"{Digits(watts * 1000)} mW" : $"{Digits(watts)} W";

    public static string Hertz(double hertz) => hertz >= 9999.5 ? $"{Digits(hertz / 1000)} kHz" : $"{Math.Round(hertz, MidpointRounding.AwayFromZero).ToString("0", CultureInfo.InvariantCulture)} Hz";

    public static string Celsius(double celsius) => $"{Math.Round(celsius, MidpointRounding.AwayFromZero).ToString("0", CultureInfo.InvariantCulture)} °C";

    public static string Percent(double share) => $"{Digits(share * 100)} %";

    public static string Length(double mm) => mm < 999.5 ? $"{Digits(mm)} mm" : $"{Digits(mm / 1000)} m";

    public static string Wire(WireGauge gauge) => string.Create(CultureInfo.InvariantCulture, $"AWG {gauge.Awg} ({gauge.AreaMm2:0.00} mm²)");

    public static string Count(int count, string one, string many) => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many)}");

    /// <summary>A number with three digits that count, and no zeros behind the point that say nothing.</summary>
    public static string Digits(double value)
    {
        if (!double.IsFinite(value))
        {
            return value.ToString(CultureInfo.InvariantCulture);
        }

        var size = Math.Abs(value);
        var form = size switch { >= 99.95 => "0", >= 9.995 => "0.#", >= 0.9995 => "0.##", _ => "0.###" };
        return value.ToString(form, CultureInfo.InvariantCulture);
    }
}
