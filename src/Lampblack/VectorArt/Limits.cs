namespace Lampblack.VectorArt;

/// <summary>How much is read of a drawing, so that no file can use up time or memory. All are ours.</summary>
internal static class Limits
{
    public const int FileBytes = 20_000_000;

    /// <summary>Elements within elements, uses and clip paths included.</summary>
    public const int Depth = 200;

    /// <summary>Elements in the file, and as many again drawn by use, clip paths, markers, patterns and masks.</summary>
    public const int Elements = 200_000;

    /// <summary>Numbers in all path data, and corners of all flattened outlines.</summary>
    public const int Corners = 400_000;

    /// <summary>Selectors of style sheets times elements.</summary>
    public const int Matches = 5_000_000;

    /// <summary>Pairs of sides, and of sides and corners, that come near each other, in all outlines together.</summary>
    public const long Meetings = 40_000_000;

    /// <summary>All pictures of a drawing together: 240 MB.</summary>
    public const int PictureDots = 60_000_000;

    /// <summary>Dots coarser than this are of no use on a panel; a drawing whose pictures would all be coarser is refused before any is made.</summary>
    public const double CoarsestDpi = 100;

    /// <summary>Dots painted in all, those that are painted over counted too: some seconds.</summary>
    public const double PaintedDots = 5e8;

    /// <summary>Dots of one embedded picture before it is placed.</summary>
    public const int EmbeddedDots = 40_000_000;

    /// <summary>Width and height of a drawing.</summary>
    public const double LongestMm = 5_000;

    public const double ShortestMm = 0.1;

    /// <summary>Nothing is drawn farther out than this; beyond, the grid's numbers are no longer exact.</summary>
    public const double FarthestMm = 90_000;

    /// <summary>Findings of one code; what is more is only counted.</summary>
    public const int SameFindings = 12;
}
