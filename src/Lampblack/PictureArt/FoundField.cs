using System;
using Lampblack.Bitmaps;

namespace Lampblack.PictureArt;

/// <summary>What of a picture is field, how sure that is, and what colours the rest has.</summary>
public sealed class FoundField
{
    internal FoundField(SourcePicture picture, GainPlane plane, Tones tones, BitRaster doubtful, ArtColours? colours, Sureness sureness)
    {
        (Picture, Plane, Doubtful, Colours, Sureness) = (picture, plane, doubtful, colours, sureness);
        var gain = tones.Gain;
        var valley = tones.Valley!.Value;
        Threshold = valley.Threshold;
        ValleyDepthShare = valley.Depth;
        FieldColour = ((byte)gain.Red, (byte)gain.Green, (byte)gain.Blue);
        FieldLightness = Lightness.Of(gain.Red, gain.Green, gain.Blue);
        ThresholdLightness = Lightness.OfGrey(gain.Inverted
            ? Math.Max(gain.Red, Math.Max(gain.Green, gain.Blue)) - Threshold
            : Math.Min(gain.Red, Math.Min(gain.Green, gain.Blue)) + Threshold);
        Openings = plane.Between(Threshold, 255);
        var dots = (double)plane.Width * plane.Height;
        FieldShare = 1 - (Openings.Count() / dots);
        DoubtfulShare = doubtful.Count() / dots;
    }

    /// <summary>The picture.</summary>
    public SourcePicture Picture { get; }

    /// <summary>CIE lightness L* of the lightest grey that is still field.</summary>
    public double ThresholdLightness { get; }

    /// <summary>How much of the picture is field.</summary>
    public double FieldShare { get; }

    /// <summary>How much of the picture could be either.</summary>
    public double DoubtfulShare { get; }

    /// <summary>1 where hardly anything lies between field and openings, 0 where there is no valley in the histogram.</summary>
    public double ValleyDepthShare { get; }

    /// <summary>How sure all of it is.</summary>
    public Sureness Sureness { get; }

    /// <summary>The field's mean colour, sRGB codes.</summary>
    public (byte Red, byte Green, byte Blue) FieldColour { get; }

    /// <summary>Its lightness L*.</summary>
    public double FieldLightness { get; }

    /// <summary>The dots that shine, in the picture's own resolution.</summary>
    public BitRaster Openings { get; }

    /// <summary>The dots that could be either, in the picture's own resolution.</summary>
    public BitRaster Doubtful { get; }

    /// <summary>The legends' colours; null where they are all bare paper, so that no picture is needed.</summary>
    public ArtColours? Colours { get; }

    /// <summary>Whether no colour but bare paper is left.</summary>
    public bool IsColourless => Colours is null;

    /// <summary>The first gain that is no field.</summary>
    internal int Threshold { get; }

    internal GainPlane Plane { get; }
}
