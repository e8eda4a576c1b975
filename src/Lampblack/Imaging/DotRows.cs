namespace Lampblack.Imaging;

/// <summary>Some rows of a picture.</summary>
/// <param name="First">The first row, counted from 0 at the top.</param>
/// <param name="Count">How many rows.</param>
internal readonly record struct DotRows(int First, int Count);
