using System;
using System.Collections.Immutable;
using System.Numerics;
using Lampblack.Bitmaps;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>Finds the black field of a picture drawn elsewhere, from the picture itself or by what the user says.</summary>
public static class FieldFinder
{
    /// <summary>What shines by one strong colour but is darker than this to the eye (L*), and lighter than the field by less, is doubted.</summary>
    private const double DarkColour = 20;

    /// <summary>Finds the field; nothing where the picture has one tone only.</summary>
    public static Checked<FoundField?> Find(SourcePicture picture, FieldOptions options)
    {
        ArgumentNullException.ThrowIfNull(picture);
        ArgumentNullException.ThrowIfNull(options);
        var findings = ImmutableArray.CreateBuilder<Finding>();
        var ground = FieldFindings.Ground(picture, options, findings);
        var tones = Tones.Of(picture.Census, options, ground.IsWhite);
        if (tones.Valley is null)
        {
            findings.Add(FieldFindings.OneTone(picture.FileName));
            return new(null, findings.ToImmutable());
        }

        var (plane, dark, colours) = Read(picture, tones, options.KeepColours && tones.HasColours);
        var told = options.LevelLightness is not null;
        int? tolerance = options.ToleranceLightness is { } wanted
            ? (int)(Lightness.GreyCode(Math.Min(100, wanted + FieldLightness(tones))) - Lightness.GreyCode(FieldLightness(tones)))
            : null;
        var doubtful = Doubts.Find(plane, tones, dark, told, options.Inverted ? null : tolerance);
        if (ground.IsDoubtful)
        {
            doubtful = doubtful.Or(TransparentDots(picture));
        }

        var found = new FoundField(picture, plane, tones, doubtful, colours, FieldFindings.Judge(tones.Valley.Value, plane, doubtful, told));
        FieldFindings.Add(found, options, findings);
        return new(found, findings.ToImmutable());
    }

    private static double FieldLightness(Tones tones) => Lightness.Of(tones.Gain.Red, tones.Gain.Green, tones.Gain.Blue);

    private static (GainPlane Plane, BitRaster Dark, ArtColours? Colours) Read(SourcePicture picture, Tones tones, bool withColours)
    {
        var header = picture.Header;
        var gains = new byte[header.Width * header.Height];
        var colours = withColours ? new ColourGathering(tones, header) : null;
        var darkBins = header.Form.Bytes > 1 && !tones.Gain.Inverted ? DarkBins(tones, picture.Census) : null;
        var (upright, upHeight) = header.Turn.Size(header.Width, header.Height);
        var dark = new BitRasterBuilder(upright, upHeight);
        var (start, byColumn, byRow) = header.Turn.Steps(header.Width, header.Height);
        var threshold = tones.Valley!.Value.Threshold;
        var lit = new ulong[(header.Width + 63) / 64];
        picture.ForEachBand(band =>
        {
            for (var index = 0; index < band.Count; index++)
            {
                var row = band.First + index;
                var dots = band.Row(index);
                var line = gains.AsSpan(row * header.Width, header.Width);
                tones.Gain.Of(dots, band.Form, line);
                colours?.Add(row, dots, band.Form, line);
                if (darkBins is not null)
                {
                    AddDark(dots, band.Form, line, column =>
                    {
                        var at = start + (column * byColumn) + (row * byRow);
                        dark[(int)(at % upright), (int)(at / upright)] = true;
                    });
                }
            }
        });
        var plane = new GainPlane(header.Turn.Apply(gains, header.Width, header.Height, 1), upright, upHeight);
        return (plane, dark.ToRaster(), colours?.Finish(plane));

        // Only what shines is asked for its colour, and most of a panel is field.
        void AddDark(ReadOnlySpan<byte> dots, DotForm form, ReadOnlySpan<byte> line, Action<int> add)
        {
            GainPlane.Pack(line, (byte)threshold, 255, lit);
            for (var index = 0; index < lit.Length; index++)
            {
                for (var word = lit[index]; word != 0; word &= word - 1)
                {
                    var column = (index * 64) + BitOperations.TrailingZeroCount(word);
                    if (darkBins[BinOf(dots, column * form.Bytes, form, tones.Gain.Ground)])
                    {
                        add(column);
                    }
                }
            }
        }
    }

    private static int BinOf(ReadOnlySpan<byte> dots, int at, DotForm form, int ground)
    {
        var alpha = form.HasAlpha ? dots[at + 3] : 255;
        return Tones.Bin(Census.Over(dots[at], alpha, ground), Census.Over(dots[at + 1], alpha, ground), Census.Over(dots[at + 2], alpha, ground));
    }

    private static bool[]? DarkBins(Tones tones, Census census)
    {
        var bins = new bool[Census.Steps * Census.Steps * Census.Steps];
        var any = false;
        var limit = FieldLightness(tones) + DarkColour;
        for (var bin = 0; bin < bins.Length; bin++)
        {
            var (red, green, blue) = (Census.Code(bin / (Census.Steps * Census.Steps)), Census.Code(bin / Census.Steps % Census.Steps), Census.Code(bin % Census.Steps));
            bins[bin] = Lightness.Of(red, green, blue) < limit && tones.Gain.Of(red, green, blue) >= tones.Valley!.Value.Threshold;
            any |= bins[bin] && census.All(tones.Gain.Ground == 255)[bin] > 0;
        }

        return any ? bins : null;
    }

    private static BitRaster TransparentDots(SourcePicture picture)
    {
        var header = picture.Header;
        var alphas = new byte[header.Width * header.Height];
        picture.ForEachBand(band =>
        {
            for (var index = 0; index < band.Count; index++)
            {
                var dots = band.Row(index);
                var line = alphas.AsSpan((band.First + index) * header.Width, header.Width);
                for (var column = 0; column < line.Length; column++)
                {
                    line[column] = dots[(column * 4) + 3];
                }
            }
        });
        return new GainPlane(header.Turn.Apply(alphas, header.Width, header.Height, 1), picture.WidthPx, picture.HeightPx).Between(0, 127);
    }
}
