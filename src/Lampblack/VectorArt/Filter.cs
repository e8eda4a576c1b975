using System.Collections.Generic;
using Lampblack.Geometry;

namespace Lampblack.VectorArt;

/// <summary>What is done to the dots of an element.</summary>
/// <param name="Steps">One after the other; the last one's result is seen.</param>
/// <param name="Window">Outside of it nothing is seen.</param>
internal sealed record Filter(List<FilterStep> Steps, Region<ItemSpace> Window);

/// <summary>One step. Lengths are in mm.</summary>
/// <param name="Kind">The element's name, such as feOffset.</param>
/// <param name="Inputs">Names of what it works on: SourceGraphic, SourceAlpha or a result; empty for the step before.</param>
/// <param name="Result">Name of its result; empty where it has none.</param>
/// <param name="Way">Its two lengths: deviations, offsets or radii, to the right and up.</param>
/// <param name="Colour">Its colour.</param>
/// <param name="Word">Its mode, operator or type.</param>
/// <param name="Numbers">Its numbers.</param>
internal sealed record FilterStep(string Kind, List<string> Inputs, string Result, Spot Way, DrawnColour Colour, string Word, List<double> Numbers)
{
    /// <summary>The shadow's blur, which has lengths of its own.</summary>
    public Spot Blur { get; init; }
}
