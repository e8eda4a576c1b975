using System.Globalization;
using Lampblack.Findings;

namespace Lampblack.PictureArt;

/// <summary>How large a picture may be. All of it is looked at before anything is unpacked.</summary>
public static class PictureLimits
{
    /// <summary>Bytes of a file: 200 MB.</summary>
    public const int MostBytes = 200_000_000;

    /// <summary>Dots of a side: a metre and a half at 600 dpi.</summary>
    public const int MostDotsOfSide = 40_000;

    /// <summary>Dots in all: a sheet of A4 at 1200 dpi has 139 million.</summary>
    public const long MostDots = 200_000_000;

    /// <summary>Dots in all where the file's form does not let it be read row by row (interlaced PNG, progressive JPEG): A4 at 600 dpi has 35 million.</summary>
    public const long MostDotsAtOnce = 50_000_000;

    /// <summary>Dots of a side below which nothing can be told apart.</summary>
    public const int FewestDotsOfSide = 16;

    /// <summary>Unpacked bytes: 200 million dots of four colours with eight bits, or fewer with sixteen.</summary>
    internal const long MostUnpackedBytes = 1_000_000_000;

    /// <summary>Scans that a JPEG may be built of; ten are usual. Each is worked through over all dots.</summary>
    internal const int MostScans = 40;

    /// <summary>Ends the reading where the size can't be right or is too much.</summary>
    internal static void Check(string fileName, long width, long height, bool atOnce)
    {
        var size = string.Create(CultureInfo.InvariantCulture, $"{width} x {height} dots");
        if (width < FewestDotsOfSide || height < FewestDotsOfSide)
        {
            throw new PictureFault(Finding.Stop(
                "art-too-small",
                $"{Shown.Quoted(fileName)} has {size}; 16 dots a side are the least that can be artwork.",
                "Export the artwork with 600 dots to the inch."));
        }

        if (width > MostDotsOfSide || height > MostDotsOfSide || width * height > MostDots)
        {
            throw new PictureFault(Finding.Stop(
                "art-too-large",
                $"{Shown.Quoted(fileName)} says it has {size}; 40000 dots a side and 200 million in all are the most. Nothing of it was unpacked.",
                "Export the artwork with 600 or 1200 dots to the inch."));
        }

        if (atOnce && width * height > MostDotsAtOnce)
        {
            throw new PictureFault(Finding.Stop(
                "art-too-large",
                $"{Shown.Quoted(fileName)} has {size} and is interlaced or progressive, so that it can't be read row by row; 50 million dots are the most for that.",
                "Save it without interlacing (PNG) or as baseline (JPEG)."));
        }
    }
}
