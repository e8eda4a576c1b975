using System;
using System.Collections.Immutable;
using System.Threading.Tasks;
using Lampblack.Bitmaps;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>Finds the black field of a picture drawn elsewhere, from the picture itself or by what the user says.</summary>
public static class FieldFinder
{
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

        var (plane, dark, gathered) = Read(picture, tones, options.KeepColours && tones.HasColours);
        var told = options.LevelLightness is not null;
        int? tolerance = options.ToleranceLightness is { } wanted
            ? (int)(Lightness.GreyCode(Math.Min(100, wanted + tones.FieldLightness)) - Lightness.GreyCode(tones.FieldLightness))
            : null;

        // Neither waits for the other, and each has long stretches that keep one core busy only.
        var colouring = Task.Run(() => gathered?.Finish(plane));
        var doubtful = Doubts.Find(plane, tones, dark, told, options.Inverted ? null : tolerance);
        var colours = colouring.GetAwaiter().GetResult();
        if (ground.IsDoubtful)
        {
            doubtful = doubtful.Or(TransparentDots(picture));
        }

        var found = new FoundField(picture, plane, tones, doubtful, colours, FieldFindings.Judge(tones.Valley.Value, plane, doubtful, told));
        FieldFindings.Add(found, options, findings);
        return new(found, findings.ToImmutable());
    }

    private static (GainPlane Plane, BitRaster Dark, ColourGathering? Colours) Read(SourcePicture picture, Tones tones, bool withColours)
    {
        var header = picture.Header;
        var gains = new byte[header.Width * header.Height];
        var colours = withColours ? new ColourGathering(tones, header) : null;
        var dark = new DarkDots(tones, picture);
        picture.ForEachBand(band =>
        {
            for (var index = 0; index < band.Count; index++)
            {
                var row = band.First + index;
                var dots = band.Row(index);
                var line = gains.AsSpan(row * header.Width, header.Width);
                tones.Gain.Of(dots, band.Form, line);
                colours?.Add(row, dots, band.Form, line);
                dark.Add(row, dots, band.Form, line);
            }
        });
        return (new(header.Turn.Apply(gains, header.Width, header.Height, 1), picture.WidthPx, picture.HeightPx), dark.ToRaster(), colours);
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
