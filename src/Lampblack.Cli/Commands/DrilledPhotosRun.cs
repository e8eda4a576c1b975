using System;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack drilled DESK PHOTO</c>: the same, with the holes as a photo of the plate tells them.</summary>
internal static class DrilledPhotosRun
{
    /// <summary>Reads the photos, and writes what they tell into the desk.</summary>
    /// <param name="call">The call.</param>
    /// <param name="desk">The desk as it was typed.</param>
    /// <param name="photos">The photos' paths.</param>
    /// <param name="panel">The panel's id; null for whichever they show.</param>
    /// <param name="isDry">Whether nothing is to be written.</param>
    /// <param name="schema">The answer's schema.</param>
    internal static int Run(Call call, string desk, string[] photos, string? panel, bool isDry, string schema)
    {
        call.Terminal.Log($"reading {desk}");
        OpenedDesk opened = call.Await(() => OpenedDesk.Open(desk));
        Checked<DrilledPhotosResult> result;
        using (ProgressLine progress = new(call.Terminal))
        {
            result = call.Await(() => DrilledPhotos.Run(
                opened.Source,
                photos.Select(photo =>
                {
                    OpenedArt file = OpenedArt.Open(photo, PhotosOfSheets.LimitBytes);
                    return (file.Name, (ReadOnlyMemory<byte>)file.Bytes.AsMemory());
                }),
                panel,
                progress,
                call.Cancellation));
        }

        bool isWritten = result.Value.Marks.IsChanged && !result.HasStop && !isDry;
        if (isWritten)
        {
            call.Terminal.Log($"writing {opened.FilePath}");
            DeskWriting.Write(opened, result.Value.Marks.Bytes);
        }

        int exit = result.HasStop ? ExitCodes.Stopped : ExitCodes.Fine;
        if (call.IsJson)
        {
            Answer(exit, schema, opened, isWritten, result);
        }
        else
        {
            FindingLines.Print(call.Terminal, opened.FolderPath, result.Findings);
            Tell(call.Terminal, desk, opened, isWritten, result);
        }

        return exit;
    }

    private static void Answer(int exit, string schema, OpenedDesk opened, bool isWritten, Checked<DrilledPhotosResult> result) => JsonAnswer.Print(schema, exit, writer =>
    {
        writer.WriteString("desk", opened.FilePath);
        writer.WriteBoolean("changed", isWritten);
        writer.WriteString("panel", result.Value.Panel);
        writer.WriteStartArray("holes");
        foreach (DrilledHole hole in result.Value.Holes)
        {
            writer.WriteStartObject();
            writer.WriteString("item", hole.Item);
            writer.WriteNumber("dxMm", hole.DxMm);
            writer.WriteNumber("dyMm", hole.DyMm);
            writer.WriteNumber("sdMm", Rounded(hole.SdMm));
            writer.WriteNumber("meantDiameterMm", Rounded(hole.MeantDiameterMm));
            writer.WriteNumber("diameterMm", Rounded(hole.DiameterMm));
            writer.WriteNumber("diameterSdMm", Rounded(hole.DiameterSdMm));
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        JsonAnswer.WriteTexts(writer, "moves", result.Value.Moves);
        DrilledCommand.WriteDrilled(writer, result.Value.Marks.Drilled);
        JsonAnswer.WriteFindings(writer, result.Findings);
    });

    private static void Tell(Terminal terminal, string desk, OpenedDesk opened, bool isWritten, Checked<DrilledPhotosResult> result)
    {
        string file = ShownPath.Of(opened.FilePath);
        if (result.HasStop)
        {
            terminal.Say($"Nothing was written: {file} is as it was.");
            return;
        }

        terminal.Say($"Holes of {result.Value.Panel}, from where they were meant to be (right and up; give or take 19 times out of 20):");
        foreach (DrilledHole hole in result.Value.Holes)
        {
            terminal.Say(FormattableString.Invariant($"  {hole.Item}: {hole.DxMm:+0.00;-0.00;0.00}, {hole.DyMm:+0.00;-0.00;0.00} mm (±{2 * hole.SdMm:0.00}), {hole.DiameterMm:0.0} mm wide (meant {hole.MeantDiameterMm:0.0})"));
        }

        if (result.Value.Moves.Length > 0)
        {
            terminal.Say("On the next print:");
        }

        foreach (string move in result.Value.Moves)
        {
            terminal.Say($"  {move}");
        }

        terminal.Say(isWritten ? $"Written into {file}. Next: 'lampblack build {ShownPath.Of(desk)}'. The print then fits the holes."
            : result.Value.Marks.IsChanged ? "Nothing was written (--dry-run)." : $"{file} says so already; nothing was written.");
    }

    private static decimal Rounded(double mm) => decimal.Round((decimal)mm, 4, MidpointRounding.AwayFromZero);
}
