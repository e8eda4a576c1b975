namespace Lampblack.VectorArt;

/// <summary>A colour as the file means it: sRGB codes and how much of what lies below is hidden.</summary>
/// <param name="Red">sRGB code of red.</param>
/// <param name="Green">sRGB code of green.</param>
/// <param name="Blue">sRGB code of blue.</param>
/// <param name="OpacityShare">1 hides what lies below, 0 shows nothing of the shape; between, sRGB codes are mixed in this share (not linear light), as SVG has it.</param>
public readonly record struct DrawnColour(byte Red, byte Green, byte Blue, double OpacityShare)
{
    /// <summary>Black that hides what lies below.</summary>
    public static DrawnColour Black { get; } = new(0, 0, 0, 1);

    /// <summary>
    /// What is seen where this colour is painted over another: the "over" of Porter and Duff on sRGB codes, rounded to the nearest code.
    /// </summary>
    /// <param name="below">The colour that was there.</param>
    public DrawnColour Over(DrawnColour below)
    {
        var opacity = OpacityShare + (below.OpacityShare * (1 - OpacityShare));
        if (opacity <= 0)
        {
            return default;
        }

        var share = OpacityShare / opacity;
        return new(Mix(Red, below.Red), Mix(Green, below.Green), Mix(Blue, below.Blue), opacity);
        byte Mix(byte above, byte under) => (byte)((above * share) + (under * (1 - share)) + 0.5);
    }
}
