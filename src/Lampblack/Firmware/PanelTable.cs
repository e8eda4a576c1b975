using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Wiring;

namespace Lampblack.Firmware;

/// <summary>What one controller of a desk has to know, as the engine reads it. docs/engine.md has its layout.</summary>
/// <param name="Bytes">The table; empty where it could not be made.</param>
/// <param name="PlanHash">CRC-32 of the table without its own checksum: by it the host knows which plan runs in the panel.</param>
public sealed record PanelTable(ImmutableArray<byte> Bytes, uint PlanHash)
{
    private const int ChecksumAt = 8;
    private const int KeyAt = 12;

    /// <summary>The table for one controller. With a <c>stop</c> finding it is empty.</summary>
    public static Checked<PanelTable> Of(ControllerPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var findings = TableRules.Check(plan).ToImmutableArray();
        var none = new PanelTable([], 0);
        if (findings.Any(finding => finding.Severity == Severity.Stop))
        {
            return new(none, findings);
        }

        var body = TableBody.Of(plan);
        var length = KeyAt + 1 + body.Length;
        if (length > EngineLimits.TableBytes)
        {
            return new(none, [.. findings, TableRules.TooLong(plan, length)]);
        }

        return new(Sealed(plan, body), findings);
    }

    /// <summary>
    /// Every byte behind the key is stored combined with it. The first key is taken with which the table holds nowhere three exclamation marks:
    /// old boot loaders of the ATmega2560 take those for a command in the middle of data (from memory).
    /// </summary>
    private static PanelTable Sealed(ControllerPlan plan, ImmutableArray<byte> body)
    {
        var length = KeyAt + 1 + body.Length;
        for (var key = 0; ; key++)
        {
            byte[] head =
            [
                (byte)'L', (byte)'B', EngineVersions.Table, (byte)LowestEngine(plan), EngineVersions.Link, (byte)((int)plan.Chip + 1), (byte)length, (byte)(length >> 8),
            ];
            byte[] rest = [(byte)key, .. body.Select(value => (byte)(value ^ key))];
            var hash = Crc32.Of([.. head, .. rest]);
            ImmutableArray<byte> bytes = [.. head, (byte)hash, (byte)(hash >> 8), (byte)(hash >> 16), (byte)(hash >> 24), .. rest];
            if (!HasMarks(bytes))
            {
                return new(bytes, hash);
            }
        }
    }

    private static int LowestEngine(ControllerPlan plan) =>
        plan.Dimmers.Any(dimmer => dimmer.IsMeter) ? EngineVersions.EngineWithMeters : plan.Usb is null ? EngineVersions.EngineWithoutUsb : EngineVersions.EngineWithUsb;

    private static bool HasMarks(ImmutableArray<byte> bytes) => bytes.AsSpan().IndexOf("!!!"u8) >= 0;
}
