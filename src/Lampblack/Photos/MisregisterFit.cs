using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Photos;

/// <summary>Where side 2 lands: what is meant for p lies at A p + t. Sheet mm, front view, origin at the lower left, y upwards.</summary>
/// <param name="Affine">[[a, b, tx], [c, d, ty]]; tx and ty in mm.</param>
/// <param name="Covariance">Of a, b, tx, c, d, ty in this order, row by row; tx and ty in mm. What the paper's thickness may have done is in it.</param>
/// <param name="NoiseCovariance">The same without the paper's thickness.</param>
/// <param name="RmsMm">Root mean square, over the marks used, of how far each lies off the fit.</param>
/// <param name="MarksUsed">How many marks were used, over all photos.</param>
public sealed record MisregisterFit(
    ImmutableArray<ImmutableArray<double>> Affine,
    ImmutableArray<ImmutableArray<double>> Covariance,
    ImmutableArray<ImmutableArray<double>> NoiseCovariance,
    double RmsMm,
    int MarksUsed)
{
    /// <summary>The same as a map.</summary>
    public Affine<SheetSpace, SheetSpace> Map => new(Affine[0][0], Affine[0][1], Affine[0][2], Affine[1][0], Affine[1][1], Affine[1][2]);

    /// <summary>The fit to marks, however they were read, and the marks with how far each lies off it and whether it was used; null where they are too few or on one line.</summary>
    /// <param name="marks">At least four. What the paper's thickness may have done is taken to be nothing.</param>
    public static (MisregisterFit Fit, ImmutableArray<MarkReading> Marks)? Of(ImmutableArray<MarkReading> marks) =>
        MarksFit.Of([.. marks.Select(mark => MarkOffset.Of(mark, null))], 0) is var (fit, residualsMm, isUsed)
            ? (fit, [.. marks.Select((mark, index) => mark with { ResidualMm = residualsMm[index], IsUsed = isUsed[index] })])
            : null;

    /// <summary>How far side 2 lies off at a place.</summary>
    /// <param name="place">Where.</param>
    public Vector<SheetSpace> At(Point<SheetSpace> place) => Map.Apply(place) - place;
}
