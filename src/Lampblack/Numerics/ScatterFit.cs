using System;
using System.Collections.Immutable;
using System.Linq;
using MathNet.Numerics.LinearAlgebra;

namespace Lampblack.Numerics;

/// <summary>
/// Unknowns that differ from group to group around a mean: the mean, how well it is known, and how much groups scatter. Each observation of a group is
/// x'(mean + deviation of the group) plus its own error; deviations are normal, and the sizes of their classes have scaled inverse chi-square priors.
/// </summary>
/// <remarks>
/// Expectation and maximisation for a mixed model (N. M. Laird, J. H. Ware, Biometrics 38 (1982) 963-974; from memory), with the mean integrated out, so that
/// its own uncertainty is no scatter. All is reckoned in units of the priors' standard deviations, which keeps the small matrices well conditioned.
/// </remarks>
public sealed record ScatterFit
{
    private const int MostRounds = 60;
    private const double Settled = 1e-5;

    private ScatterFit(LinearFit mean, ImmutableArray<ScatterClass> classes, ImmutableArray<ScatterEstimate> scatter)
    {
        Mean = mean;
        Classes = classes;
        Scatter = scatter;
    }

    /// <summary>The mean over all groups that there could be, with its covariance; that groups scatter is in it.</summary>
    public LinearFit Mean { get; }

    /// <summary>The classes.</summary>
    public ImmutableArray<ScatterClass> Classes { get; }

    /// <summary>How much each class scatters, in the order of the classes.</summary>
    public ImmutableArray<ScatterEstimate> Scatter { get; }

    /// <summary>The scale by which an unknown scatters from group to group, in its own unit.</summary>
    /// <param name="unknown">Its number.</param>
    public double SdOf(int unknown)
    {
        var (type, place) = Place(Classes, unknown);
        return Classes[type].PriorSds[place] * Scatter[type].TimesPrior;
    }

    /// <summary>Which class an unknown belongs to.</summary>
    /// <param name="unknown">Its number.</param>
    public int ClassOf(int unknown) => Place(Classes, unknown).Class;

    /// <summary>Fits.</summary>
    /// <param name="ofMean">What is known of the mean itself; must tell every unknown.</param>
    /// <param name="groups">The observations of each group.</param>
    /// <param name="classes">Every unknown is in exactly one.</param>
    public static ScatterFit Of(ImmutableArray<Observation> ofMean, ImmutableArray<ImmutableArray<Observation>> groups, ImmutableArray<ScatterClass> classes)
    {
        var size = classes.Sum(type => type.Unknowns.Length);
        var places = Enumerable.Range(0, size).Select(unknown => Place(classes, unknown)).ToArray();
        var units = places.Select(place => classes[place.Class].PriorSds[place.Place]).ToArray();
        var prior = Information.Of(ofMean, units);
        var told = groups.Select(group => Information.Of(group, units)).ToArray();
        var variances = Enumerable.Repeat(1.0, classes.Length).ToArray();
        var round = Round();
        for (var count = 0; count < MostRounds && groups.Length > 0; count++)
        {
            var next = classes.Select((type, index) => Variance(type, index)).ToArray();
            var change = next.Zip(variances).Max(pair => Math.Abs((pair.First / pair.Second) - 1));
            variances = next;
            round = Round();
            if (change < Settled)
            {
                break;
            }
        }

        var (mean, covariance, _, left) = round;
        var scatter = classes.Select((type, index) => new ScatterEstimate(
            Math.Sqrt(variances[index]),
            type.PriorDegrees + type.Unknowns.Sum(unknown => left.Sum(group => Math.Max(0, 1 - (group[unknown] / variances[index]))))));
        return new(
            new(
                [.. mean.Select((value, index) => value * units[index])],
                [.. Enumerable.Range(0, size).Select(row => Enumerable.Range(0, size).Select(column => covariance[row, column] * units[row] * units[column]).ToImmutableArray())]),
            classes,
            [.. scatter]);

        double Variance(ScatterClass type, int index)
        {
            var seen = type.Unknowns.Sum(unknown => round.Deviations.Sum(group => group[unknown] * group[unknown]) + round.Left.Sum(group => group[unknown]));
            return (type.PriorDegrees + seen) / (type.PriorDegrees + (groups.Length * type.Unknowns.Length));
        }

        (Vector<double> Mean, Matrix<double> Covariance, Vector<double>[] Deviations, Vector<double>[] Left) Round()
        {
            var inner = Matrix<double>.Build.DiagonalOfDiagonalArray([.. places.Select(place => 1 / variances[place.Class])]);
            var spreads = told.Select(group => (group.Matrix + inner).Inverse()).ToArray();
            var gains = told.Zip(spreads, (group, spread) => spread * group.Matrix).ToArray();

            // What a group tells of the mean, its deviation integrated out: W - W V W is V W over the variances, and nothing is lost by taking away.
            var matrix = gains.Aggregate(prior.Matrix, (sum, gain) => sum + (inner * gain));
            var right = told.Zip(spreads).Aggregate(prior.Right, (sum, pair) => sum + (inner * (pair.Second * pair.First.Right)));
            var covariance = matrix.Inverse();
            var mean = covariance * right;
            return (
                mean,
                covariance,
                [.. told.Zip(spreads, (group, spread) => spread * (group.Right - (group.Matrix * mean)))],
                [.. spreads.Zip(gains, (spread, gain) => spread.Diagonal() + (gain * covariance * gain.Transpose()).Diagonal())]);
        }
    }

    private static (int Class, int Place) Place(ImmutableArray<ScatterClass> classes, int unknown)
    {
        for (var type = 0; type < classes.Length; type++)
        {
            if (classes[type].Unknowns.IndexOf(unknown) is >= 0 and var place)
            {
                return (type, place);
            }
        }

        throw new ArgumentException("every unknown belongs to a class", nameof(unknown));
    }

    /// <summary>Normal equations of some observations, in units of the priors.</summary>
    private sealed record Information(Matrix<double> Matrix, Vector<double> Right)
    {
        public static Information Of(ImmutableArray<Observation> observations, double[] units)
        {
            var rows = Matrix<double>.Build.Dense(observations.Length, units.Length, (row, column) => observations[row].Coefficients[column] * units[column] / observations[row].Sd);
            var values = Vector<double>.Build.Dense(observations.Length, row => observations[row].Value / observations[row].Sd);
            return new(rows.TransposeThisAndMultiply(rows), rows.TransposeThisAndMultiply(values));
        }
    }
}
