using System;
using Lampblack.Optics;

namespace Lampblack.Imaging;

/// <summary>The colour space of the pictures, IEC 61966-2-1.</summary>
public static class Srgb
{
    private static readonly byte[] Codes = MakeCodes();

    /// <summary>The number that is stored (0 to 1) for linear light from 0 to 1.</summary>
    public static double Encode(double linear) =>
        linear <= 0.0031308 ? 12.92 * linear : (1.055 * Math.Pow(linear, 1 / 2.4)) - 0.055;

    /// <summary>Linear light from 0 to 1 of a stored number (0 to 1).</summary>
    public static double Decode(double stored) =>
        stored <= 0.04045 ? stored / 12.92 : Math.Pow((stored + 0.055) / 1.055, 2.4);

    /// <summary>Linear light of an eight-bit code.</summary>
    public static double Decode(byte code) => Decode(code / 255.0);

    /// <summary>The eight-bit code of linear light; light below 0 or above 1 is cut off there.</summary>
    public static byte Code(double linear) => Code((float)linear);

    /// <summary>Linear light of CIE 1931 X, Y, Z (Y of white is 1), which may lie outside 0 to 1.</summary>
    public static LinearColour FromXyz(double x, double y, double z) => new(
        (3.2406 * x) - (1.5372 * y) - (0.4986 * z),
        (-0.9689 * x) + (1.8758 * y) + (0.0415 * z),
        (0.0557 * x) - (0.2040 * y) + (1.0570 * z));

    /// <summary>CIE 1931 X, Y, Z of linear light.</summary>
    public static (double X, double Y, double Z) ToXyz(LinearColour colour) => (
        (0.4124 * colour.Red) + (0.3576 * colour.Green) + (0.1805 * colour.Blue),
        (0.2126 * colour.Red) + (0.7152 * colour.Green) + (0.0722 * colour.Blue),
        (0.0193 * colour.Red) + (0.1192 * colour.Green) + (0.9505 * colour.Blue));

    // Written so that a number that is not one ends at 0 instead of outside the table.
    internal static byte Code(float linear) =>
        Codes[linear >= 1 ? Codes.Length - 1 : linear > 0 ? (int)((linear * (Codes.Length - 1)) + 0.5f) : 0];

    // A code is at least 19 entries wide (at the dark end, where the curve rises by 12.92 * 255 codes), so a colour is at most 0.03 codes off.
    private static byte[] MakeCodes()
    {
        var codes = new byte[65536];
        for (var index = 0; index < codes.Length; index++)
        {
            codes[index] = (byte)Math.Round(Encode((double)index / (codes.Length - 1)) * 255, MidpointRounding.AwayFromZero);
        }

        return codes;
    }
}
