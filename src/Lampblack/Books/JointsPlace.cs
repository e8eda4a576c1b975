using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Geometry;

namespace Lampblack.Books;

/// <summary>How the strip of perforated board stands at a lamp board.</summary>
internal enum JointsStand
{
    /// <summary>Glued to its back.</summary>
    Glued,

    /// <summary>On spacers, over joints that are soldered before.</summary>
    Raised,

    /// <summary>Outside the box, which is smaller than it.</summary>
    Outside,
}

/// <summary>Where the strip of perforated board fits on the back of a lamp board: where no leg comes through and nothing holds the board.</summary>
internal static class JointsPlace
{
    /// <summary>Height of one row of parts on it: two rails, a resistor upright between them. From memory.</summary>
    public const double RowMm = 22;

    // Holes of perforated board are 2.54 mm apart: two for a resistor with its pads, six for a transistor with its two.
    private const double StringMm = 5.08;
    private const double SwitchMm = 15.24;
    private const double EndsMm = 8;
    private const double StepMm = 2;
    private const double AwayMm = 3;

    // The pieces of strip are lower than its spacers.
    private const double EdgeMm = 4;
    private const double LeastShare = 0.5;

    /// <summary>Its place, and how it stands there. Outside the box the place is where its wires gather.</summary>
    public static (Box<PanelSpace> Area, JointsStand Stand) Of(LampBoard board, ImmutableArray<Point<PanelSpace>> legs)
    {
        var inside = board.Box.Inside;
        var need = LongMm(board);
        ImmutableArray<Box<PanelSpace>> taken = [.. board.Rests.Select(rest => rest.Area), .. board.Blocks, .. board.Notch is { } notch ? new[] { notch.Area } : []];
        foreach (var rows in Enumerable.Range(1, 4))
        {
            var (long_, high) = ((need / rows) + (rows > 1 ? SwitchMm : 0), rows * RowMm);
            foreach (var (width, height) in new[] { (long_, high), (high, long_) }.Where(size => size.Item1 <= inside.WidthMm && size.Item2 <= inside.HeightMm))
            {
                var places = from bottom in Steps(inside.BottomMm, inside.HeightMm - height)
                             from left in Steps(inside.LeftMm, inside.WidthMm - width)
                             let area = new Box<PanelSpace>(left, bottom, width, height)
                             orderby Math.Abs(area.Centre.YMm - inside.Centre.YMm) + Math.Abs(area.Centre.XMm - inside.Centre.XMm), bottom, left
                             select area;
                if (places.FirstOrDefault(area => area.Grow(AwayMm) is var wide && !legs.Any(wide.Contains) && !taken.Any(one => one.Overlaps(wide))) is { WidthMm: > 0 } found)
                {
                    return (found, JointsStand.Glued);
                }
            }
        }

        // On spacers it may lie over legs and over what carries the board at the walls.
        var (roomWideMm, roomHighMm) = (Math.Max(inside.WidthMm - (2 * EdgeMm), inside.WidthMm * LeastShare), Math.Max(inside.HeightMm - (2 * EdgeMm), inside.HeightMm * LeastShare));
        var wideMm = Math.Min(need, roomWideMm);
        var wantedMm = RowMm * Math.Ceiling(need / wideMm);
        var highMm = Math.Min(roomHighMm, wantedMm);
        return (new(inside.Centre.XMm - (wideMm / 2), inside.Centre.YMm - (highMm / 2), wideMm, highMm), wantedMm <= roomHighMm ? JointsStand.Raised : JointsStand.Outside);
    }

    /// <summary>Its length where one row holds all of it.</summary>
    public static double LongMm(LampBoard board) => EndsMm + board.Channels.Sum(channel => (channel.IsSingles ? channel.Pieces.Length * StringMm : StringMm) + SwitchMm);

    private static ImmutableArray<double> Steps(double startMm, double roomMm) => [.. Enumerable.Range(0, (int)Math.Max(0, roomMm / StepMm) + 1).Select(step => startMm + (step * StepMm)).Where(at => at <= startMm + roomMm + 1e-9)];
}
