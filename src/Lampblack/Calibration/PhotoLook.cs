using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;

namespace Lampblack.Calibration;

/// <summary>One calibration sheet as its photos show it.</summary>
/// <param name="Name">How it is named to the maker: its photos.</param>
/// <param name="Paper">The paper that it says it is printed on.</param>
/// <param name="Readings">Where side 2 lies at places of the sheet.</param>
public sealed record PhotographedSheet(string Name, PaperSize Paper, ImmutableArray<RegisterReading> Readings)
{
    /// <summary>How dark its patches are, those left out that were not seen themselves.</summary>
    public ImmutableArray<PatchDensity> Patches { get; init; } = [];

    /// <summary>How much its toner grew; null where the photos do not tell it.</summary>
    public GainEntry? Gain { get; init; }

    /// <summary>Where its colours lie; nothing where the photos do not tell it.</summary>
    public ImmutableArray<PlaneReading> Planes { get; init; } = [];
}

/// <summary>One look at photos of calibration sheets. Nothing is undone on them, whatever was learned before.</summary>
internal sealed class PhotoLook(ImmutableArray<PhotographedSheet> sheets)
{
    /// <summary>By what a register entry says that it comes from photos.</summary>
    public const string Source = "photos";

    /// <summary>Where the answers come from, for findings.</summary>
    public const string Option = "PHOTO";

    /// <summary>Looks whether the photos can be learned from; null with findings.</summary>
    public static PhotoLook? Read(PaperSize paper, TypedAnswers typed, List<Finding> findings)
    {
        if (!typed.Dots.IsEmpty || !typed.Readings.IsEmpty || !typed.Verniers.IsEmpty || !typed.Bars.IsEmpty || typed.Step is not null || typed.Register is not null)
        {
            findings.Add(Finding.Stop(
                "answer-mixed", "photos of calibration sheets and readings of a sheet were told together", "give the photos by themselves; tell what you read in a call of its own", item: Option));
            return null;
        }

        foreach (var other in typed.Sheets.Where(sheet => sheet.Paper.Name != paper.Name))
        {
            findings.Add(Finding.Stop(
                "photo-other-paper",
                $"{Shown.Quoted(other.Name)} shows a calibration sheet on {other.Paper.Name}, and this printer file is for {paper.Name}",
                "another paper is another path through the printer: it needs a printer file of its own. Nothing was stored",
                item: Option));
        }

        return Learning.HasStop(findings) ? null : new(typed.Sheets);
    }

    /// <summary>The file with what was seen, one entry for each sheet; null with findings.</summary>
    public PrinterFile? Learn(PrinterFile file, PaperSize paper, int number, List<Finding> findings)
    {
        PrinterFile? taught = file;
        foreach (var sheet in sheets)
        {
            ImmutableArray<SheetReading> readings = [.. sheet.Readings.SelectMany((reading, index) => ReadingsOf(sheet, reading, index, findings))];
            taught = taught is null ? null : new RegisterLesson(taught, paper, register: 0, isRegisterTyped: false, number, findings).Learn(Source, readings, _ => (0, 0));
        }

        return taught is null ? null : taught with
        {
            Wedges = [.. taught.Wedges, .. sheets.Where(sheet => !sheet.Patches.IsEmpty).Select(sheet => new WedgeEntry(sheet.Patches))],
            Gains = [.. taught.Gains, .. sheets.Select(sheet => sheet.Gain).OfType<GainEntry>()],
            Planes = [.. taught.Planes, .. sheets.Where(sheet => !sheet.Planes.IsEmpty).Select(sheet => new PlanesEntry(sheet.Planes))],
        };
    }

    private static IEnumerable<SheetReading> ReadingsOf(PhotographedSheet sheet, RegisterReading reading, int index, List<Finding> findings)
    {
        var typed = new Typed(Option, sheet.Name, findings);
        var place = new SheetPlace(System.FormattableString.Invariant($"place {index + 1} of {sheet.Name}"), reading.XMm, reading.YMm, 0);
        if (reading.RightMm is { } right)
        {
            yield return new(typed, place, false, right, reading.SdMm, ReadFrom.Photo);
        }

        if (reading.UpMm is { } up)
        {
            yield return new(typed, place, true, up, reading.SdMm, ReadFrom.Photo);
        }
    }
}
