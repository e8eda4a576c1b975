using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Text;
using Lampblack.Findings;
using Lampblack.Firmware;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>What a controller is flashed with.</summary>
/// <param name="Path">Its file, relative to the output folder.</param>
/// <param name="Controller">Which controller, from 0.</param>
/// <param name="Chip">The chip.</param>
/// <param name="Image">The engine with the desk's table; null where one can't be made.</param>
/// <param name="TableBytes">Bytes of the table; 0 where it can't be made.</param>
internal sealed record ControllerFirmware(string Path, int Controller, ControllerChip Chip, PanelImage? Image, int TableBytes);

/// <summary>The firmware of a desk: for every controller the engine that comes with the program, joined with the desk's table. No compiler is needed.</summary>
internal static class FirmwareFiles
{
    /// <summary>The firmware of every controller.</summary>
    /// <param name="pins">The pin plan.</param>
    /// <param name="findings">Takes what is found.</param>
    public static ImmutableArray<ControllerFirmware> Of(PinPlan pins, List<Finding> findings) => [.. pins.Controllers.Select(plan =>
    {
        var table = PanelTable.Of(plan);
        var path = pins.Controllers.Length == 1 ? "firmware/panel.hex" : FormattableString.Invariant($"firmware/panel-{plan.Index + 1}.hex");

        // The pin plan told of a speed that the chip can't make.
        var joined = table.HasStop || SerialSpeed.Check(plan.Baud, null) is not null ? null : PanelImage.Join(EngineImage.BuiltIn(plan.Chip), table.Value);
        findings.AddRange(table.Findings.Concat(joined?.Findings ?? []));
        return new ControllerFirmware(path, plan.Index, plan.Chip, joined is { HasStop: false } ? joined.Value : null, table.Value.Bytes.Length);
    })];

    /// <summary>The files; none for a controller whose firmware can't be made.</summary>
    public static IEnumerable<OutputFile> Files(ImmutableArray<ControllerFirmware> firmware) =>
        from one in firmware
        where one.Image is not null
        select new OutputFile(
            one.Path,
            FormattableString.Invariant($"what the {one.Chip}{(firmware.Length == 1 ? string.Empty : $" of controller {one.Controller + 1}")} is flashed with: `lampblack flash`"),
            [.. Encoding.ASCII.GetBytes(one.Image!.File.Write())]) { IsForBench = true };
}
