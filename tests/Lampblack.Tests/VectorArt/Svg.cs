using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.VectorArt;
using Xunit;

namespace Lampblack.Tests.VectorArt;

/// <summary>Short ways to read drawings that a test writes itself.</summary>
internal static class Svg
{
    public const string FileName = "art.svg";

    private const string Head = "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\"";

    /// <summary>A file of 100 x 100 mm, one unit being one mm.</summary>
    public static string Page(string elements) => $"{Head} width=\"100mm\" height=\"100mm\" viewBox=\"0 0 100 100\">{elements}</svg>";

    /// <summary>A file with attributes of its own.</summary>
    public static string File(string attributes, string elements) => $"{Head} {attributes}>{elements}</svg>";

    public static Checked<Drawing?> Read(string file, SvgOptions? options = null) => SvgReader.Read(Encoding.UTF8.GetBytes(file), FileName, options ?? new());

    /// <summary>A drawing that is read without any finding.</summary>
    public static Drawing Clean(string elements)
    {
        var read = Read(Page(elements));
        Assert.Empty(read.Findings);
        return read.Value!;
    }

    /// <summary>The areas of a page's elements, all clean.</summary>
    public static ImmutableArray<DrawnShape> Shapes(string elements) => [.. Clean(elements).Items.Cast<DrawnShape>()];

    /// <summary>The only area of a page's elements.</summary>
    public static Region<ItemSpace> Shape(string elements) => Assert.Single(Shapes(elements)).Shape;

    /// <summary>The one finding of a file.</summary>
    public static Finding OneFinding(string file) => Assert.Single(Read(file).Findings);

    /// <summary>Asserts where a region lies, within a hundredth of a mm; y up.</summary>
    public static void Lies(Region<ItemSpace> region, double left, double bottom, double right, double top)
    {
        var box = region.Bounds;
        Assert.Equal(left, box.LeftMm, 0.01);
        Assert.Equal(bottom, box.BottomMm, 0.01);
        Assert.Equal(right, box.RightMm, 0.01);
        Assert.Equal(top, box.TopMm, 0.01);
    }

    public static string Number(double number) => number.ToString("R", System.Globalization.CultureInfo.InvariantCulture);
}
