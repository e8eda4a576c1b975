using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Calibration;
using Lampblack.Photos;
using Lampblack.Tests.Calibration;
using Xunit;

namespace Lampblack.Tests.Photos;

/// <summary>The fit of six numbers to marks, and its picture.</summary>
public sealed class MisregisterFitTests
{
    private static readonly CalibrationPlan A4 = TrialPhoto.Plans.Single(plan => plan.Paper.Name == "A4");

    [Fact]
    public void Exact_points_give_the_map_back()
    {
        // Five points under [[.998, .0015, .8], [-.0012, .9995, -.6]], worked out by hand.
        var fit = MisregisterFit.Of([At(1, 0, 0, 0.8, -0.6), At(2, 180, 0, 180.44, -0.816), At(3, 180, 120, 180.62, 119.124), At(4, 0, 120, 0.98, 119.34), At(5, 90, 60, 90.71, 59.262)])!.Value.Fit;
        double[] found = [.. fit.Affine.SelectMany(row => row)];
        double[] meant = [0.998, 0.0015, 0.8, -0.0012, 0.9995, -0.6];
        Assert.All(Enumerable.Range(0, 6), index => Assert.Equal(meant[index], found[index], 1e-9));
        Assert.True(fit.RmsMm < 1e-9);
    }

    [Fact]
    public void Marks_on_a_line_or_too_few_tell_nothing()
    {
        Assert.Null(MisregisterFit.Of([At(1, 0, 0, 0, 0), At(2, 10, 0, 10, 0), At(3, 0, 10, 0, 10)]));
        Assert.Null(MisregisterFit.Of([.. Enumerable.Range(1, 6).Select(number => At(number, number * 10, number * 10, number * 10, number * 10))]));
    }

    [Fact]
    public void Seven_wild_marks_of_24_are_left_out_and_the_scatter_is_what_the_others_have()
    {
        var chance = new Chance(3);
        var wild = new[] { 1, 2, 3, 9, 14, 20, 24 };
        ImmutableArray<MarkReading> marks = [.. A4.Marks.Select(mark => new MarkReading(
            mark.Number, mark.Place, 0.4 + (0.001 * mark.Place.YMm) + chance.Normal(0.004) + (wild.Contains(mark.Number) ? 0.6 : 0), -0.2 + chance.Normal(0.004), 0.003, 0, false))];
        var (fit, read) = MisregisterFit.Of(marks)!.Value;
        Assert.Equal(wild, read.Where(mark => !mark.IsUsed).Select(mark => mark.Number));
        Assert.Equal(17, fit.MarksUsed);

        // Root mean square in two directions, less what six numbers take up: 0.004 sqrt(2) sqrt(28/34).
        Assert.Equal(0.0051, fit.RmsMm, 0.0015);
        Assert.Equal(0.4, fit.At(new(0, 0)).DxMm, 0.012);
        Assert.Equal(0.697, fit.At(new(0, 297)).DxMm, 0.012);
    }

    [Fact]
    public void The_picture_shows_each_arrow_50_times_as_long_and_left_out_marks_by_a_square_too()
    {
        ImmutableArray<MarkReading> marks = [new(1, A4.Marks[0].Place, 0.3, 0.1, 0.002, 0, true), new(10, A4.Marks[9].Place, -0.2, 0.4, 0.002, 0.3, false)];
        using var picture = MisregisterPicture.Of(A4.Paper, A4.Marks, marks);
        // The sheet with 30 mm around it, four dots to the mm.
        Assert.Equal((1080, 1428), (picture.WidthPx, picture.HeightPx));
        Assert.Equal(((byte)0, (byte)90, (byte)160), Dot(A4.Marks[0].Place.XMm + 15, A4.Marks[0].Place.YMm + 5));
        Assert.Equal(((byte)255, (byte)255, (byte)255), Dot(A4.Marks[0].Place.XMm + 16.5, A4.Marks[0].Place.YMm + 5.5));
        Assert.Equal(((byte)200, (byte)80, (byte)0), Dot(A4.Marks[9].Place.XMm + 4, A4.Marks[9].Place.YMm + 1));
        Assert.Equal(((byte)255, (byte)255, (byte)255), Dot(A4.Marks[0].Place.XMm + 4, A4.Marks[0].Place.YMm - 1));

        (byte, byte, byte) Dot(double x, double y) => picture[(int)((30 + x) * 4), picture.HeightPx - 1 - (int)((30 + y) * 4)];
    }

    private static MarkReading At(int number, double x, double y, double toX, double toY) => new(number, new(x, y), toX - x, toY - y, 0.001, 0, false);
}
