namespace Lampblack.Optics;

/// <summary>The smooth surface of toner, paper or a plate, which throws some light back on its way in and some on its way out (Saunderson 1942).</summary>
/// <param name="OuterReflectance">k1: share thrown back of what comes from outside; 0.04 for light from one direction on a body of index 1.5.</param>
/// <param name="InnerReflectance">k2: share thrown back of what comes from inside in all directions; 0.596 for an index of 1.5, 0 where the body doesn't scatter.</param>
public readonly record struct Surface(double OuterReflectance, double InnerReflectance)
{
    /// <summary>Reflectance as seen from outside.</summary>
    /// <param name="insideReflectance">Reflectance of the body behind the surface.</param>
    public double Seen(double insideReflectance) =>
        OuterReflectance + ((1 - OuterReflectance) * (1 - InnerReflectance) * insideReflectance / (1 - (InnerReflectance * insideReflectance)));
}
