using System;
using System.Collections.Immutable;
using System.Linq;
using System.Text.Json;
using Lampblack.Findings;
using Lampblack.Geometry;
using Lampblack.Layout;
using Lampblack.Printers;
using Lampblack.Separations;
using Lampblack.Sheets;

namespace Lampblack.Jobs;

/// <summary>The figures of a build, for other programs and for the next build in the same folder.</summary>
/// <remarks>
/// Each panel has fingerprints in panel space, whatever sheet it lies on: <c>artworkHash</c> (what the desk asks for), <c>frontHash</c>, <c>maskHash</c>,
/// <c>holesHash</c>, <c>fixingsHash</c>, and <c>plateMm</c> (width, height, corner), <c>holes</c> (how many). Each of its <c>controls</c> has its <c>atMm</c> as designed,
/// <c>drilledMm</c> as measured (null where it was not), <c>centreMm</c> where it is laid out, its part and the <c>holeHash</c> of its part's holes as turned.
/// What a build has not worked out is left out: front, mask and light where only the bench was asked for, sheets where none are shown.
/// </remarks>
internal static class Report
{
    public const string Schema = "lampblack-report/1";

    public static OutputFile Write(
        ImmutableArray<Finding> findings,
        LaidDesk laid,
        ImmutableArray<PanelSeparation> separations,
        ImmutableArray<Sheet> sheets,
        LightAccount light,
        SheetCost? cost,
        PrintSetup setup,
        BuildRequest request,
        CutSheetPlan cut,
        DeskWiring? wiring)
    {
        // Most of the work, and each panel's is its own.
        var prints = separations.AsParallel().AsOrdered().Select(Fingerprints.Of).ToImmutableArray();
        return new("report.json", "findings and figures, for other programs", JsonBytes.Write(json =>
        {
            json.WriteString("schema", Schema);
            json.WriteString("paper", setup.Paper.Name);
            json.WriteString("paperFrom", request.PaperFrom);
            json.WriteString("printer", request.Printer?.Name);
            json.WriteNumber("register", request.Printer?.Revision ?? 0);
            Undone(json, setup.Printer.SideTwo);
            json.WriteBoolean("bracket", request.BracketStepMm is not null);
            json.WriteString("black", setup.Black.Name);
            Edges(json, setup.Printer, request.Printer);
            Findings(json, findings);
            if (!separations.IsEmpty)
            {
                LightReport.Write(json, light);
            }

            cost?.Write(json);
            if (!ReferenceEquals(cut, CutSheetPlan.Nothing))
            {
                json.WriteStartObject("cut");
                CutReport.Write(json, cut);
                json.WriteEndObject();
            }

            if (wiring is not null)
            {
                WiringReport.Write(json, wiring);
            }

            json.WriteStartArray("panels");
            foreach (var (index, panel) in laid.Panels.Index())
            {
                json.WriteStartObject();
                json.WriteString("id", panel.Panel.Id);
                if (!separations.IsEmpty)
                {
                    Sides(json, separations[index], sheets);
                    LightReport.Write(json, light, light.Panels[index]);
                }

                Arts(json, panel);
                Compared(json, panel, separations.IsEmpty ? null : prints[index]);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteStartArray("sheets");
            foreach (var sheet in sheets)
            {
                Sheet(json, sheet, setup.Spreads.ShareOf(sheet.Id), request.Parts.HasFlag(BuildParts.Print));
            }

            json.WriteEndArray();
        }));
    }

    /// <summary>What the printer does to side 2 and is undone on the masks: what is meant for p lands at A p + t, in sheet mm, front view.</summary>
    private static void Undone(Utf8JsonWriter json, Affine<SheetSpace, SheetSpace> map)
    {
        json.WriteStartArray("undone");
        foreach (var row in new[] { new[] { map.Xx, map.Xy, map.XMm }, [map.Yx, map.Yy, map.YMm] })
        {
            json.WriteStartArray();
            foreach (var number in row)
            {
                json.WriteNumberValue(number);
            }

            json.WriteEndArray();
        }

        json.WriteEndArray();
    }

    /// <summary>Where the figures for black's edges come from; of the growth null where nothing was learned of it.</summary>
    private static void Edges(Utf8JsonWriter json, PrinterProperties printer, PrinterFile? file)
    {
        var gain = file is null ? null : GainEstimate.Of(file);
        json.WriteStartObject("edges");
        json.WriteString("standBackFrom", printer.SheetsOfStandBack > 0 ? "learned" : "common practice");
        json.WriteNumber("standBackSheets", printer.SheetsOfStandBack);
        json.WriteString("pullBackFrom", gain is { Sheets: > 0 } ? "learned" : "nothing learned");
        json.WriteNumber("pullBackSheets", gain?.Sheets ?? 0);
        if (gain is { Sheets: > 0 })
        {
            json.Number("growthMm", gain.GrowthMm);
            json.Number("growthSdMm", gain.SdMm);
        }

        json.WriteEndObject();
    }

    /// <summary>Writes findings as every JSON of ours has them.</summary>
    private static void Findings(Utf8JsonWriter json, ImmutableArray<Finding> findings)
    {
        json.WriteStartArray("findings");
        foreach (var finding in findings)
        {
            json.WriteStartObject();
            json.WriteString("severity", finding.Severity switch { Severity.Stop => "stop", Severity.Warn => "warn", _ => "note" });
            json.WriteString("code", finding.Code);
            json.WriteString("file", finding.Span?.File);
            WriteWhole(json, "line", finding.Span?.Line);
            WriteWhole(json, "column", finding.Span?.Column);
            json.WriteString("item", finding.Item);
            json.WriteString("message", finding.Message);
            json.WriteString("hint", finding.Hint);
            if (finding.Accepted is { } because)
            {
                json.WriteString("accepted", because);
            }

            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void WriteWhole(Utf8JsonWriter json, string name, int? value)
    {
        if (value is { } number)
        {
            json.WriteNumber(name, number);
        }
        else
        {
            json.WriteNull(name);
        }
    }

    /// <summary>Figures of front and mask, and the sheet that they are on.</summary>
    private static void Sides(Utf8JsonWriter json, PanelSeparation separation, ImmutableArray<Sheet> sheets)
    {
        var id = separation.Artwork.Laid.Panel.Id;
        var figures = separation.Figures;
        var sheet = sheets.FirstOrDefault(sheet => sheet.Panels.Any(panel => panel.Panel.Id == id && !panel.Spare));
        var placed = sheet?.Panels.First(panel => panel.Panel.Id == id && !panel.Spare);
        json.Number("spreadMm", separation.SpreadMm);
        json.Number("standBackMm", separation.StandBackMm);
        json.Number("pullBackMm", separation.PullBackMm);
        json.WriteNumber("openings", figures.Openings);
        json.Number("smallestOpeningMm", figures.SmallestOpeningMm);
        json.Number("haloWidthMm", figures.HaloWidthMm);
        json.Number("haloMm2", figures.HaloMm2);
        json.Number("leakMm2", figures.LeakMm2);
        json.Number("frontCoverage", figures.FrontCoverage);
        json.Number("maskCoverage", figures.MaskCoverage);
        json.WriteString("sheet", sheet?.Id);
        if (placed is not null)
        {
            Placed(json, placed);
        }
    }

    /// <summary>Where a panel lies on its sheet; nothing for one that no sheet has room for, where only the bench was asked for.</summary>
    private static void Placed(Utf8JsonWriter json, PlacedPanel placed)
    {
        json.WriteNumber("quarterTurns", placed.QuarterTurns);
        json.Box("trimBoxMm", placed.Trim);
        json.WriteStartArray("cutAwayMm");
        foreach (var border in placed.Panel.Holes.Map(placed.Map).Borders())
        {
            Outline(json, border);
        }

        json.WriteEndArray();
    }

    /// <summary>How the field of artwork drawn elsewhere was found; nothing where there is none.</summary>
    private static void Arts(Utf8JsonWriter json, LaidPanel laid)
    {
        if (laid.Arts.IsEmpty)
        {
            return;
        }

        json.WriteStartArray("arts");
        foreach (var (index, art) in laid.Arts.Index())
        {
            var account = art.Content.Account;
            json.WriteStartObject();
            json.WriteString("item", art.Origin.Item);
            json.WriteString("kind", account.Kind);
            json.Number("thresholdLightness", account.ThresholdLightness, 1);
            json.WriteString("sureness", account.Sureness);
            json.Number("fieldShare", account.FieldShare);
            json.Number("doubtfulShare", account.DoubtfulShare);
            json.Number("valleyDepthShare", account.ValleyDepthShare);
            if (account.ResolutionDpi is { } dpi)
            {
                json.Number("resolutionDpi", dpi, 1);
            }
            else
            {
                json.WriteNull("resolutionDpi");
            }

            json.WriteString("doubts", account.Doubts is null ? null : PictureFiles.DoubtsPath(laid.Panel.Id, index));
            json.WriteNumber("holes", art.Content.Holes.Length);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    /// <summary>What the next build compares itself with.</summary>
    private static void Compared(Utf8JsonWriter json, LaidPanel laid, Fingerprints? print)
    {
        var panel = laid.Panel;
        if (print is not null)
        {
            json.WriteString("artworkHash", print.Artwork);
            json.WriteString("frontHash", print.Front);
            json.WriteString("maskHash", print.Mask);
        }

        json.WriteString("holesHash", ComparisonFingerprint.OfHoles(laid.Parts));
        json.WriteString("fixingsHash", ComparisonFingerprint.OfHoles(laid.Parts.Where(part => part.Origin.Span == panel.Fixings?.Span)));
        json.WriteNumber("holes", laid.Parts.Sum(part => part.Holes.Length));
        Lengths(json, "plateMm", panel.WidthMm, panel.HeightMm, panel.CornerMm);
        json.WriteStartArray("controls");
        foreach (var control in ComparisonControls.Of(panel))
        {
            json.WriteStartObject();
            json.WriteString("id", control.Id);
            json.WriteString("part", control.Part);
            Lengths(json, "atMm", control.At.XMm, control.At.YMm);
            if (control.Drilled is { } drilled)
            {
                Lengths(json, "drilledMm", drilled.DxMm, drilled.DyMm);
            }
            else
            {
                json.WriteNull("drilledMm");
            }

            Lengths(json, "centreMm", control.Centre.XMm, control.Centre.YMm);
            json.WriteString("holeHash", control.HoleHash);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Lengths(Utf8JsonWriter json, string name, params ReadOnlySpan<double> lengthsMm)
    {
        json.WriteStartArray(name);
        foreach (var mm in lengthsMm)
        {
            json.Mm(mm);
        }

        json.WriteEndArray();
    }

    private static void Outline(Utf8JsonWriter json, Outline<SheetSpace> border)
    {
        json.WriteStartArray();
        foreach (var point in border.Points)
        {
            json.WriteStartArray();
            json.Mm(point.XMm);
            json.Mm(point.YMm);
            json.WriteEndArray();
        }

        json.WriteEndArray();
    }

    private static void Sheet(Utf8JsonWriter json, Sheet sheet, double? goodShare, bool printed)
    {
        json.WriteStartObject();
        json.WriteString("id", sheet.Id);
        json.WriteString("pairCode", sheet.PairCode);
        json.WriteStartArray("pageMm");
        json.Mm(sheet.Paper.WidthMm);
        json.Mm(sheet.Paper.HeightMm);
        json.WriteEndArray();
        json.WriteString("dotRows", DotPlace.Of(sheet));
        json.WriteStartArray("marks");
        foreach (var mark in WasteMarks.Of(sheet))
        {
            json.WriteStartObject();
            json.WriteNumber("number", mark.Number);
            Lengths(json, "atMm", mark.Place.XMm, mark.Place.YMm);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        if (goodShare is { } share)
        {
            json.Number("goodShare", share);
            WriteWhole(json, "sheetsForOneGood", SheetPromise.SheetsForOne(share));
        }

        foreach (var side in new[] { "front", "mask", "duplex" })
        {
            json.WriteString(side, printed ? PrintFiles.Path(sheet, side) : null);
        }

        json.WriteEndObject();
    }

    private sealed record Fingerprints(string Artwork, string Front, string Mask)
    {
        public static Fingerprints Of(PanelSeparation separation) => new(
            ComparisonFingerprint.OfArtwork(separation), ComparisonFingerprint.OfSide(separation.Front), ComparisonFingerprint.OfSide(separation.Mask));
    }
}
