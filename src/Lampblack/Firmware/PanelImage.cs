using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Parts;

namespace Lampblack.Firmware;

/// <summary>What one controller is flashed with: engine and table in one.</summary>
/// <param name="File">Its bytes; none where engine and table do not fit together.</param>
public sealed record PanelImage(HexFile File)
{
    /// <summary>Joins a table to an engine of the same versions and the same chip.</summary>
    public static Checked<PanelImage> Join(EngineImage engine, PanelTable table)
    {
        ArgumentNullException.ThrowIfNull(engine);
        ArgumentNullException.ThrowIfNull(table);
        var findings = Differences(engine, table).ToList();
        return findings.Count > 0
            ? new(new PanelImage(new HexFile([])), [.. findings])
            : new(new PanelImage(engine.File.With(new(EngineLimits.TableAddress, table.Bytes))), []);
    }

    private static IEnumerable<Finding> Differences(EngineImage engine, PanelTable table)
    {
        if (table.Bytes.Length < 16)
        {
            yield return Finding.Stop("engine-version", "there is no table to join to the engine", "deal with what was found in the plan first");
            yield break;
        }

        if (table.Bytes[2] != engine.TableVersion)
        {
            yield return Differs("the table is of form", table.Bytes[2], "the engine reads form", engine.TableVersion);
        }

        if (table.Bytes[3] > engine.EngineVersion)
        {
            yield return Differs("the table needs engine", table.Bytes[3], "this engine is", engine.EngineVersion);
        }

        if (table.Bytes[4] != engine.LinkVersion)
        {
            yield return Differs("the program speaks link", table.Bytes[4], "the engine speaks link", engine.LinkVersion);
        }

        if (table.Bytes[5] != (int)engine.Chip + 1)
        {
            yield return Finding.Stop("engine-version", $"the table is for {(ControllerChip)(table.Bytes[5] - 1)}, the engine for {engine.Chip}", "take the engine for the controller's chip");
        }
    }

    private static Finding Differs(string what, int found, string against, int known) => Finding.Stop(
        "engine-version", string.Create(CultureInfo.InvariantCulture, $"{what} {found}, {against} {known}"), "take the engine that comes with this version of the program");
}
