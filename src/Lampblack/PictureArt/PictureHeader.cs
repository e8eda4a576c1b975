using System.Collections.Immutable;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>The bytes in which dots are handed on: sRGB codes of eight bits.</summary>
/// <param name="Bytes">1 grey; 3 red, green, blue; 4 with a fourth one.</param>
/// <param name="HasAlpha">Whether the fourth says how opaque the dot is (not premultiplied); else it means nothing.</param>
internal readonly record struct DotForm(int Bytes, bool HasAlpha)
{
    public static DotForm Grey { get; } = new(1, false);

    public static DotForm Rgb { get; } = new(3, false);

    public static DotForm RgbAndNothing { get; } = new(4, false);

    public static DotForm Rgba { get; } = new(4, true);
}

/// <summary>What a file says of its picture before any dot is read.</summary>
/// <param name="Format"><c>PNG</c> or <c>JPEG</c>.</param>
/// <param name="Width">Dots of a stored row.</param>
/// <param name="Height">Stored rows.</param>
/// <param name="Turn">How to turn it.</param>
/// <param name="DotsPerInchX">Stated resolution along stored rows.</param>
/// <param name="DotsPerInchY">Stated resolution across stored rows.</param>
/// <param name="Form">How its dots are handed on.</param>
/// <param name="Notes">What else is worth knowing.</param>
internal sealed record PictureHeader(
    string Format,
    int Width,
    int Height,
    Turn Turn,
    double? DotsPerInchX,
    double? DotsPerInchY,
    DotForm Form,
    ImmutableArray<Finding> Notes);
