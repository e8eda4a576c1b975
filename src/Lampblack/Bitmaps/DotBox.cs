namespace Lampblack.Bitmaps;

/// <summary>An upright rectangle of dots.</summary>
/// <param name="Left">The first column.</param>
/// <param name="Top">The first row.</param>
/// <param name="WidthDots">Columns.</param>
/// <param name="HeightDots">Rows.</param>
public readonly record struct DotBox(int Left, int Top, int WidthDots, int HeightDots);
