using System;
using System.Collections.Immutable;
using System.Linq;
using System.Threading;
using Lampblack.Calibration;

namespace Lampblack.Photos;

/// <summary>Where the colours lie on K, from the marks of one photo.</summary>
/// <param name="Offsets">Of each mark that tells it.</param>
/// <param name="Unread">Letters of colours of which no mark does, each with the reason; in order.</param>
internal sealed record PlanesLook(ImmutableArray<PlaneOffset> Offsets, ImmutableArray<(char Letter, string Why)> Unread)
{
    private const string Letters = "CMY";
    private const double AroundMm = 6;

    /// <summary>Looks at a photo.</summary>
    public static PlanesLook Of(string fileName, ReadOnlyMemory<byte> bytes, SheetPose pose, CalibrationPlan plan, double blurMm, BarePaper? bare, CancellationToken cancellation)
    {
        var marks = CalibrationPlanes.Of(plan);
        if (blurMm > LineLight.MostBlurMm)
        {
            return None("the photo is too blurred");
        }

        if (bare is { IsBlown: true })
        {
            return None("bare paper is as bright as the photo can show");
        }

        var corners = marks.SelectMany(mark => new[] { (-AroundMm, -AroundMm), (AroundMm, -AroundMm), (AroundMm, AroundMm), (-AroundMm, AroundMm) }
            .Select(way => pose.Project(new(mark.Place.XMm + way.Item1, mark.Place.YMm + way.Item2)))).ToList();
        if (corners.Any(corner => !(Math.Abs(corner.X) < 1e6 && Math.Abs(corner.Y) < 1e6)))
        {
            return None("its mark is not in the photo");
        }

        var part = ((int)corners.Min(corner => corner.X), (int)corners.Min(corner => corner.Y), (int)corners.Max(corner => corner.X) + 1, (int)corners.Max(corner => corner.Y) + 1);
        if (PhotoColours.Read(fileName, bytes, part, cancellation) is not { } colours)
        {
            return None("the photo has no colours");
        }

        // Cyan keeps back red light, magenta green, yellow blue.
        var read = marks.Select(mark => (mark.Letter, Read: PlaneDisc.Of(colours.Channels[Letters.IndexOf(mark.Letter, StringComparison.Ordinal)], pose, mark))).ToList();
        ImmutableArray<PlaneOffset> offsets = [.. read.Select(one => one.Read.Offset).OfType<PlaneOffset>()];
        return new(offsets, [.. read.Where(one => one.Read.Why is not null && !offsets.Any(offset => offset.Letter == one.Letter)).DistinctBy(one => one.Letter).Select(one => (one.Letter, one.Read.Why!))]);
    }

    private static PlanesLook None(string why) => new([], [.. Letters.Select(letter => (letter, why))]);
}
