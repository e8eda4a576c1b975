using System;
using System.Collections.Generic;
using System.Linq;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Sheets;

namespace Lampblack.Photos;

/// <summary>A photo's light, and the numbered windows that stand in it.</summary>
/// <param name="FileName">The photo's name, for messages.</param>
/// <param name="Light">Its light.</param>
/// <param name="Finder">Finds round spots in it.</param>
/// <param name="Windows">The windows that were read.</param>
internal sealed record SeenPhoto(string FileName, LightPlane Light, RoundFinder Finder, List<SeenMark> Windows)
{
    // One may be dust that looks like a number.
    private const int LeastOfSheet = 3;

    /// <summary>Whether the windows are those that sheets of a build carry in their waste.</summary>
    public bool IsOfBuiltSheet => Windows.Select(mark => mark.Number).Where(WasteMarks.IsNumber).Distinct().Count() >= LeastOfSheet;

    /// <summary>Unpacks a photo and looks for windows; null where it can't be unpacked.</summary>
    public static Checked<SeenPhoto?> Of(string fileName, ReadOnlyMemory<byte> bytes, CancellationToken cancellation)
    {
        var read = PhotoFile.Read(fileName, bytes, cancellation);
        if (read.Value is not { } light)
        {
            return new(null, read.Findings);
        }

        var finder = RoundFinder.Of(light, cancellation);
        return new(new(fileName, light, finder, PhotoReading.Marks(light, finder.Find(bright: true), PhotoReading.Windows, cancellation)), read.Findings);
    }
}
