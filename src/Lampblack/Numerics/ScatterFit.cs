using System;
using System.Collections.Immutable;
using System.Linq;

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
        var inner = Enumerable.Repeat(1.0, size).ToArray();
        var round = Round();
        for (var count = 0; count < MostRounds && groups.Length > 0; count++)
        {
            var next = classes.Select((type, index) => Variance(type, index)).ToArray();
            var change = next.Zip(variances).Max(pair => Math.Abs((pair.First / pair.Second) - 1));
            variances = next;
            inner = [.. places.Select(place => variances[place.Class])];
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

        (double[] Mean, double[,] Covariance, double[][] Deviations, double[][] Left) Round()
        {
            var (matrix, right) = ((double[,])prior.Matrix.Clone(), (double[])prior.Right.Clone());
            var gains = new double[told.Length][,];
            var spreads = new double[told.Length][,];
            for (var group = 0; group < told.Length; group++)
            {
                var own = (double[,])told[group].Matrix.Clone();
                for (var index = 0; index < size; index++)
                {
                    own[index, index] += 1 / inner[index];
                }

                spreads[group] = SmallSystem.Invert(own)!;
                gains[group] = Times(spreads[group], told[group].Matrix);
                var alone = Times(spreads[group], told[group].Right);

                // What a group tells of the mean, its deviation integrated out: W - W V W is V W over the variances, and nothing is lost by taking away.
                for (var row = 0; row < size; row++)
                {
                    right[row] += alone[row] / inner[row];
                    for (var column = 0; column < size; column++)
                    {
                        matrix[row, column] += gains[group][row, column] / inner[row];
                    }
                }
            }

            var spread = SmallSystem.Invert(matrix)!;
            var middle = Times(spread, right);
            var deviations = new double[told.Length][];
            var left = new double[told.Length][];
            for (var group = 0; group < told.Length; group++)
            {
                var over = Times(told[group].Matrix, middle);
                deviations[group] = Times(spreads[group], [.. told[group].Right.Select((value, index) => value - over[index])]);
                var carried = Times(Times(gains[group], spread), Transposed(gains[group]));
                left[group] = [.. Enumerable.Range(0, size).Select(index => spreads[group][index, index] + carried[index, index])];
            }

            return (middle, spread, deviations, left);
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

    private static double[,] Transposed(double[,] matrix)
    {
        var size = matrix.GetLength(0);
        var turned = new double[size, size];
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < size; column++)
            {
                turned[column, row] = matrix[row, column];
            }
        }

        return turned;
    }

    private static double[,] Times(double[,] first, double[,] second)
    {
        var size = first.GetLength(0);
        var product = new double[size, size];
        for (var row = 0; row < size; row++)
        {
            for (var column = 0; column < size; column++)
            {
                var sum = 0.0;
                for (var index = 0; index < size; index++)
                {
                    sum += first[row, index] * second[index, column];
                }

                product[row, column] = sum;
            }
        }

        return product;
    }

    private static double[] Times(double[,] matrix, double[] vector)
    {
        var product = new double[vector.Length];
        for (var row = 0; row < product.Length; row++)
        {
            for (var column = 0; column < product.Length; column++)
            {
                product[row] += matrix[row, column] * vector[column];
            }
        }

        return product;
    }

    /// <summary>Normal equations of some observations, in units of the priors.</summary>
    private sealed record Information(double[,] Matrix, double[] Right)
    {
        public static Information Of(ImmutableArray<Observation> observations, double[] units)
        {
            var size = units.Length;
            var (matrix, right) = (new double[size, size], new double[size]);
            foreach (var one in observations)
            {
                var weight = 1 / (one.Sd * one.Sd);
                for (var row = 0; row < size; row++)
                {
                    var factor = one.Coefficients[row] * units[row] * weight;
                    right[row] += factor * one.Value;
                    for (var column = 0; column < size; column++)
                    {
                        matrix[row, column] += factor * one.Coefficients[column] * units[column];
                    }
                }
            }

            return new(matrix, right);
        }
    }
}
