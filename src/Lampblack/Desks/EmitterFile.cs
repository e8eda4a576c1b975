using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>A box as a file of emitters gives it, in place of the desk's.</summary>
/// <param name="WidthMm">Inner width; it starts at the panel's lower left corner.</param>
/// <param name="HeightMm">Inner height.</param>
/// <param name="DepthMm">From the mask to the emitters.</param>
/// <param name="WallReflectance">What the walls throw back.</param>
/// <param name="FloorReflectance">What the floor throws back.</param>
/// <param name="MaskReflectance">What the mask's back throws back.</param>
/// <param name="Diffuser">A sheet that scatters; null for none.</param>
public sealed record GivenBox(double WidthMm, double HeightMm, double DepthMm, double WallReflectance, double FloorReflectance, double MaskReflectance, DiffuserSheet? Diffuser);

/// <summary>Emitters in a file of their own, to be judged in place of a plan.</summary>
/// <param name="Emitters">The emitters.</param>
/// <param name="Box">Their box; null for that of the desk.</param>
public sealed record EmitterFile(ImmutableArray<DeskEmitter> Emitters, GivenBox? Box)
{
    private const int MostEmitters = 5000;

    /// <summary>Reads <c>[[emitter]]</c> and <c>[box]</c>.</summary>
    /// <param name="fileName">The file's name for findings.</param>
    /// <param name="bytes">Its bytes.</param>
    public static Checked<EmitterFile> Read(string fileName, ReadOnlySpan<byte> bytes)
    {
        var text = TomlText.Read(fileName, bytes);
        var findings = new List<Finding>(text.Findings);
        var table = new TableReader(text.Value, "the file", findings);
        var emitters = ImmutableArray.CreateBuilder<DeskEmitter>();
        foreach (var entry in table.Tables("emitter"))
        {
            if (emitters.Count == MostEmitters)
            {
                findings.Add(Finding.Stop("items-too-many", FormattableString.Invariant($"a file may hold {MostEmitters} emitters"), "take some away", entry.Span));
                break;
            }

            var place = entry.PlaceMm("at", -DeskReading.FarthestMm, DeskReading.FarthestMm);
            var lumens = entry.Number("lumen", 0.001, 100_000);
            var halfAngle = entry.Number("halfAngle", 1, 89) ?? entry.Number("half-angle", 1, 89);
            if (place is { } at)
            {
                emitters.Add(new(at.XMm, at.YMm, lumens, halfAngle, entry.Span));
            }
            else if (!entry.Has("at"))
            {
                findings.Add(Finding.Stop("key-missing", "an emitter needs its place", "such as `at = [40, 30]`", entry.Span));
            }

            entry.Finish();
        }

        var box = table.Table("box") is { } given ? ReadBox(given, findings) : null;
        table.Finish();
        if (emitters.Count == 0 && text.Findings.IsEmpty)
        {
            findings.Add(Finding.Stop("emitters-missing", "the file has no `[[emitter]]`", "write `[[emitter]]` with `at = [40, 30]`, `lumen = 5` and `halfAngle = 60` for each", table.Span));
        }

        return new(new(emitters.ToImmutable(), box), [.. findings]);
    }

    private static GivenBox? ReadBox(TableReader table, List<Finding> findings)
    {
        var size = table.LengthsMm("size", 2, 2, 5, 2000);
        var depth = table.LengthMm("depth", 1, 2000);
        var usual = LightingWish.Unsaid;
        var (wall, floor, mask) = (table.Number("wall", 0, 0.98) ?? usual.WallReflectance, table.Number("floor", 0, 0.98) ?? usual.FloorReflectance, table.Number("mask", 0, 0.98) ?? 0.05);
        var diffuser = table.Raw("diffuser") switch
        {
            NumberNode => table.Number("diffuser", 0.01, 1) is { } passes ? new DiffuserSheet(0, passes, Math.Min(DiffuserSheet.Usual.Reflectance, 1 - passes)) : null,
            null => null,
            _ => table.Table("diffuser") is { } sheet ? LightingReader.Diffuser(sheet, findings, depth) : null,
        };
        table.Finish();
        if (size is null || depth is null)
        {
            findings.Add(Finding.Stop("key-missing", "the box needs `size` and `depth`", "such as `size = [174, 104]` and `depth = 40`, in mm", table.Span));
            return null;
        }

        return new(size.Value[0], size.Value[1], depth.Value, wall, floor, mask, diffuser);
    }
}
