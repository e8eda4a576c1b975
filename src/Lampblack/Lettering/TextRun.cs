using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Lettering;

/// <summary>A line of lettering as shapes; origin at the left end of its baseline, x to the right, y up.</summary>
/// <param name="Shape">The ink.</param>
/// <param name="WidthMm">From the origin to where a next letter would stand, in mm, without letter spacing after the last one.</param>
/// <param name="CapHeightMm">Height of the capitals, in mm.</param>
/// <param name="Missing">
/// What was left out, each once, in the order of the text: characters that the font lacks as they stand, and those that can't be printed
/// (control characters, halves of surrogate pairs) as <c>U+0009</c>.
/// </param>
public sealed record TextRun(Region<ItemSpace> Shape, double WidthMm, double CapHeightMm, ImmutableArray<string> Missing);
