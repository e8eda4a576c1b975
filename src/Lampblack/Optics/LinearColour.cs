namespace Lampblack.Optics;

/// <summary>
/// Light in the red, green and blue band of the sRGB primaries, counted linearly: half the number is half the light.
/// Also used for shares of light (transmission, reflectance), then from 0 to 1.
/// </summary>
/// <param name="Red">Red band; 0 none, 1 full.</param>
/// <param name="Green">Green band; 0 none, 1 full.</param>
/// <param name="Blue">Blue band; 0 none, 1 full.</param>
public readonly record struct LinearColour(double Red, double Green, double Blue)
{
    /// <summary>No light.</summary>
    public static LinearColour Black => default;

    /// <summary>Full light in all bands: the white of sRGB, a perfect diffuser, or a clear layer.</summary>
    public static LinearColour White => new(1, 1, 1);

    /// <summary>Relative luminance, Y of CIE 1931 with white at 1 (the middle row of the sRGB matrix of IEC 61966-2-1).</summary>
    public double Luminance => (0.2126 * Red) + (0.7152 * Green) + (0.0722 * Blue);

    /// <summary>CIE 1976 lightness L* before a white of 1: from 0 to 100.</summary>
    public double Lightness => Luminance > 216.0 / 24389 ? (116 * System.Math.Cbrt(Luminance)) - 16 : Luminance * 24389 / 27;

    /// <summary>The largest of the three bands.</summary>
    public double Peak => System.Math.Max(Red, System.Math.Max(Green, Blue));

    /// <summary>The same in all three bands.</summary>
    public static LinearColour Grey(double level) => new(level, level, level);

    /// <summary>Light after a layer, or two layers one behind the other: band by band.</summary>
    public static LinearColour operator *(LinearColour first, LinearColour second) =>
        new(first.Red * second.Red, first.Green * second.Green, first.Blue * second.Blue);

    /// <summary>The light <paramref name="factor"/> times as strong.</summary>
    public static LinearColour operator *(double factor, LinearColour colour) =>
        new(factor * colour.Red, factor * colour.Green, factor * colour.Blue);

    /// <summary>Two lights on one place.</summary>
    public static LinearColour operator +(LinearColour first, LinearColour second) =>
        new(first.Red + second.Red, first.Green + second.Green, first.Blue + second.Blue);
}
