using System;

namespace Lampblack.Geometry;

/// <summary>How finely lengths are kept, and how closely curves are followed.</summary>
public static class Resolution
{
    /// <summary>Coordinates stand on a grid of 0.1 µm: a 400th of a dot at 600 dpi, far below any printer, and the same on every machine.</summary>
    public const double GridMm = 1e-4;

    /// <summary>Grown shapes and crossings of borders stand on a 64th of the grid, 1.6 nm: nothing that is reckoned with them shows.</summary>
    public const double FineStepMm = GridMm / 64;

    /// <summary>Curves are followed by chords that miss them by at most 2 µm: a twentieth of a dot at 600 dpi.</summary>
    public const double ChordErrorMm = 2e-3;

    /// <summary>Letters are followed by chords that miss them by at most 4 µm: a tenth of a dot at 600 dpi.</summary>
    public const double LetterErrorMm = 4e-3;

    /// <summary>Small print in the waste and on sheets to be read is followed by chords that miss it by at most 10 µm: a quarter of a dot at 600 dpi.</summary>
    public const double SmallPrintErrorMm = 1e-2;

    /// <summary>Spread and choked shapes miss their true borders by at most 4 µm: a tenth of a dot at 600 dpi.</summary>
    public const double SpreadErrorMm = 4e-3;

    /// <summary>The nearest number on the grid, in mm.</summary>
    public static double Snap(double mm) => Math.Round(mm / GridMm, MidpointRounding.AwayFromZero) * GridMm;

    /// <summary>The nearest number on the fine grid, in mm.</summary>
    public static double SnapFinely(double mm) => Math.Round(mm / FineStepMm, MidpointRounding.AwayFromZero) * FineStepMm;

    /// <summary>How many chords a full circle needs to stay within <see cref="ChordErrorMm"/>; a multiple of 8, at least 16.</summary>
    public static int ChordsPerCircle(double radiusMm) => ChordsPerCircle(radiusMm, ChordErrorMm);

    /// <summary>How many chords a full circle needs to stay within an error in mm, above 0; a multiple of 8, at least 16.</summary>
    /// <remarks>The sagitta of a chord over the angle 2a is r (1 - cos a).</remarks>
    public static int ChordsPerCircle(double radiusMm, double chordErrorMm)
    {
        if (radiusMm <= chordErrorMm)
        {
            return 16;
        }

        var halfAngle = Math.Acos(1 - (chordErrorMm / radiusMm));
        var chords = Math.Ceiling(Math.PI / halfAngle / 8) * 8;
        return (int)Math.Clamp(chords, 16, 4096);
    }
}
