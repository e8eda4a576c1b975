using System;
using System.Collections.Generic;
using System.Threading.Tasks;

namespace Lampblack.PictureArt;

/// <summary>What a picture's colours tell: the field's, the paper's, and the border between.</summary>
/// <param name="Gain">How dots are compared with the field.</param>
/// <param name="Valley">The border; null where nothing differs from the field.</param>
/// <param name="PaperRed">The bare paper's code: what shines and is light and without colour.</param>
/// <param name="PaperGreen">The bare paper's code.</param>
/// <param name="PaperBlue">The bare paper's code.</param>
/// <param name="HasColours">Whether anything that shines may be more than bare paper.</param>
internal sealed record Tones(Gain Gain, GainHistogram.Valley? Valley, int PaperRed, int PaperGreen, int PaperBlue, bool HasColours)
{
    /// <summary>How much lighter (L*) a dark grey may be and still be field, where nobody said it.</summary>
    public const double UsualTolerance = 30;

    /// <summary>A colour occurs often from this share of the most frequent one's dots on.</summary>
    private const double OftenShare = 0.2;

    /// <summary>The field's lightness L*.</summary>
    public double FieldLightness => Lightness.Of(Gain.Red, Gain.Green, Gain.Blue);

    public static Tones Of(Census census, FieldOptions options, bool groundIsWhite)
    {
        var weights = census.Weights(groundIsWhite);
        var (red, green, blue) = FieldColour(weights, options);
        var gain = new Gain(red, green, blue, groundIsWhite ? 255 : 0, options.Inverted);
        var quiet = census.Quiet(groundIsWhite);
        var (raw, calm) = (new double[256], new double[256]);
        for (var bin = 0; bin < weights.Length; bin++)
        {
            if (weights[bin] > 0)
            {
                var (r, g, b) = Colour(bin);
                raw[gain.Of(r, g, b)] += weights[bin];
                calm[gain.Of(r, g, b)] += quiet[bin];
            }
        }

        var field = Lightness.Of(red, green, blue);
        var tolerance = Tolerance(field, options);
        var valley = new GainHistogram(raw, calm).Find(0, tolerance);
        if (options.LevelLightness is { } level)
        {
            var base0 = options.Inverted ? Math.Max(red, Math.Max(green, blue)) : Math.Min(red, Math.Min(green, blue));
            var told = options.Inverted ? base0 - Lightness.GreyCode(level) : Lightness.GreyCode(level) - base0;
            var threshold = (int)Math.Clamp(Math.Ceiling(told), 1, 255);
            valley = valley is { } found ? found with { Threshold = threshold } : new(0, 255, threshold, 0);
        }

        var (paperRed, paperGreen, paperBlue) = Paper(weights, gain, valley, options.Inverted);
        var tones = new Tones(gain, valley, paperRed, paperGreen, paperBlue, false);
        return tones with { HasColours = tones.SeesColours(census.All(groundIsWhite), census.Quiet(groundIsWhite)) };
    }

    /// <summary>Which colours are bare paper, by <see cref="Bin"/>.</summary>
    public bool[] PaperBins()
    {
        const int OfRed = Census.Steps * Census.Steps;
        var bins = new bool[Census.Steps * OfRed];
        var paper = Lightness.Lab(PaperRed, PaperGreen, PaperBlue);
        Parallel.For(0, Census.Steps, red =>
        {
            for (var bin = red * OfRed; bin < (red + 1) * OfRed; bin++)
            {
                bins[bin] = IsPaper(Colour(bin), paper);
            }
        });
        return bins;
    }

    public static int Bin(int red, int green, int blue) => ((((red >> 2) * Census.Steps) + (green >> 2)) * Census.Steps) + (blue >> 2);

    /// <summary>Near the bare paper: at most 20 in lightness and 18 in colour away (CIE L*a*b*).</summary>
    private bool IsPaper((int Red, int Green, int Blue) colour, (double L, double A, double B) paper)
    {
        var dot = Lightness.Lab(colour.Red, colour.Green, colour.Blue);
        var isNear = Gain.Inverted ? dot.L <= paper.L + 20 : dot.L >= paper.L - 20;
        var (a, b) = (dot.A - paper.A, dot.B - paper.B);
        return isNear && (a * a) + (b * b) <= 18 * 18;
    }

    /// <summary>
    /// Whether calm dots are coloured, or a twentieth of all that shines has a strong colour, as thin strokes have, which are all edge.
    /// Greys on edges are mixtures of field and paper and say nothing.
    /// </summary>
    private bool SeesColours(ReadOnlySpan<uint> all, ReadOnlySpan<uint> quiet)
    {
        var (lit, strong, calm, dots) = (0L, 0L, 0L, 0L);
        var paper = Lightness.Lab(PaperRed, PaperGreen, PaperBlue);
        for (var bin = 0; bin < all.Length; bin++)
        {
            dots += all[bin];
            var colour = Colour(bin);
            if (all[bin] > 0 && Valley is { } valley && Gain.Of(colour.Red, colour.Green, colour.Blue) >= valley.Threshold)
            {
                lit += all[bin];
                if (!IsPaper(colour, paper))
                {
                    calm += quiet[bin];
                    strong += IsStrong(colour) ? all[bin] : 0;
                }
            }
        }

        return calm > Math.Max(8, dots * 1e-5) || strong > lit * 0.05;
    }

    /// <summary>Whether a colour is no grey: more than 25 away from the axis (CIE a*b*).</summary>
    private static bool IsStrong((int Red, int Green, int Blue) colour)
    {
        var lab = Lightness.Lab(colour.Red, colour.Green, colour.Blue);
        return (lab.A * lab.A) + (lab.B * lab.B) > 25 * 25;
    }

    private static int Tolerance(double field, FieldOptions options)
    {
        var wanted = options.ToleranceLightness ?? UsualTolerance;
        var codes = options.Inverted
            ? Lightness.GreyCode(field) - Lightness.GreyCode(Math.Max(0, field - wanted))
            : Lightness.GreyCode(Math.Min(100, field + wanted)) - Lightness.GreyCode(field);
        return (int)Math.Clamp(codes, 2, 200);
    }

    /// <summary>The mean around the colour that occurs most among the dark ones (the light ones, where inverted).</summary>
    private static (int Red, int Green, int Blue) FieldColour(ReadOnlySpan<double> weights, FieldOptions options)
    {
        var lightness = new double[101];
        for (var bin = 0; bin < weights.Length; bin++)
        {
            if (weights[bin] > 0)
            {
                var (r, g, b) = Colour(bin);
                lightness[(int)Lightness.Of(r, g, b)] += weights[bin];
            }
        }

        var border = options.LevelLightness is { } level ? (int)Math.Clamp(Math.Ceiling(level), 1, 100) : Otsu.Of(lightness).Threshold;
        var (best, most) = (-1, -1.0);
        for (var bin = 0; bin < weights.Length; bin++)
        {
            if (weights[bin] == 0)
            {
                continue;
            }

            var (r, g, b) = Colour(bin);
            var isDark = (int)Lightness.Of(r, g, b) < border;
            if ((border == 0 || isDark != options.Inverted) && Around(weights, bin, 1).Weight is var sum && sum > most)
            {
                (best, most) = (bin, sum);
            }
        }

        var mean = Around(weights, Math.Max(best, 0), 3);
        return ((int)(mean.Red + 0.5), (int)(mean.Green + 0.5), (int)(mean.Blue + 0.5));
    }

    /// <summary>
    /// The lightest colour (darkest, where inverted) of those that shine often, are light and have little colour: light gray beside white is no paper.
    /// White where there is none (black).
    /// </summary>
    private static (int Red, int Green, int Blue) Paper(ReadOnlySpan<double> weights, Gain gain, GainHistogram.Valley? valley, bool inverted)
    {
        var candidates = new List<(double Lightness, int Bin)>();
        var most = 0.0;
        for (var bin = 0; bin < weights.Length && valley is not null; bin++)
        {
            var (r, g, b) = Colour(bin);
            if (weights[bin] > 0 && gain.Of(r, g, b) >= valley.Value.Threshold)
            {
                var lab = Lightness.Lab(r, g, b);
                if ((inverted ? lab.L <= 40 : lab.L >= 65) && (lab.A * lab.A) + (lab.B * lab.B) <= 25 * 25)
                {
                    candidates.Add((inverted ? -lab.L : lab.L, bin));
                    most = Math.Max(most, weights[bin]);
                }
            }
        }

        if (candidates.Count == 0)
        {
            return inverted ? (0, 0, 0) : (255, 255, 255);
        }

        var best = -1;
        var lightest = double.MinValue;
        foreach (var (lightness, bin) in candidates)
        {
            if (weights[bin] >= most * OftenShare && lightness > lightest)
            {
                (lightest, best) = (lightness, bin);
            }
        }

        var mean = Around(weights, best, 2);
        return ((int)(mean.Red + 0.5), (int)(mean.Green + 0.5), (int)(mean.Blue + 0.5));
    }

    private static (double Weight, double Red, double Green, double Blue) Around(ReadOnlySpan<double> weights, int bin, int reach)
    {
        const int Last = Census.Steps - 1;
        var (red, green, blue) = (bin / (Census.Steps * Census.Steps), bin / Census.Steps % Census.Steps, bin % Census.Steps);
        var (sum, r, g, b) = (0.0, 0.0, 0.0, 0.0);
        for (var i = Math.Max(0, red - reach); i <= Math.Min(Last, red + reach); i++)
        {
            for (var j = Math.Max(0, green - reach); j <= Math.Min(Last, green + reach); j++)
            {
                for (var k = Math.Max(0, blue - reach); k <= Math.Min(Last, blue + reach); k++)
                {
                    var weight = weights[(((i * Census.Steps) + j) * Census.Steps) + k];
                    (sum, r, g, b) = (sum + weight, r + (weight * Census.Code(i)), g + (weight * Census.Code(j)), b + (weight * Census.Code(k)));
                }
            }
        }

        return sum > 0 ? (sum, r / sum, g / sum, b / sum) : (0, Census.Code(red), Census.Code(green), Census.Code(blue));
    }

    public static (int Red, int Green, int Blue) Colour(int bin) =>
        (Census.Code(bin / (Census.Steps * Census.Steps)), Census.Code(bin / Census.Steps % Census.Steps), Census.Code(bin % Census.Steps));
}
