using Lampblack.Geometry;
using Lampblack.Quantities;

namespace Lampblack.Formats;

/// <summary>An area in an ink. In a list, a later one lies opaque over the earlier ones; one in <see cref="Ink.None"/> bares the paper again.</summary>
/// <typeparam name="TSpace">The space it is in.</typeparam>
/// <param name="Region">Where the ink goes.</param>
/// <param name="Ink">What is printed there.</param>
public readonly record struct Painted<TSpace>(Region<TSpace> Region, Ink Ink)
    where TSpace : struct, ISpace;
