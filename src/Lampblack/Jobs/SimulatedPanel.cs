using System.Collections.Generic;
using System.Collections.Immutable;
using System.Text;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Firmware;

namespace Lampblack.Jobs;

/// <summary>What the simulator needs to be a desk's panel: its wires, and the image that would be flashed.</summary>
/// <param name="Wires">Wires and switches, one a line; docs/engine.md has the language.</param>
/// <param name="Image">The engine with the desk's table, as Intel HEX.</param>
public sealed record SimulatedPanel(ImmutableArray<byte> Wires, ImmutableArray<byte> Image)
{
    /// <summary>Makes both from a desk or a file of pins, for its first controller.</summary>
    /// <param name="desk">The desk; null where a file of pins says all.</param>
    /// <param name="plan">A file of pins, which goes before the desk's own; empty for none.</param>
    /// <param name="planName">That file's name for findings.</param>
    /// <param name="imageName">The name under which the simulator will find the image.</param>
    /// <param name="cancellation">Stops the planning of a desk that was never built.</param>
    /// <returns>The panel; null beside a <c>stop</c> finding.</returns>
    public static Checked<SimulatedPanel?> Of(DeskSource? desk, ImmutableArray<byte> plan, string planName, string imageName, CancellationToken cancellation = default)
    {
        List<Finding> findings = [];
        if (LinkPlans.Of(desk, plan, planName, findings, cancellation) is not { } expected)
        {
            return new(null, [.. findings]);
        }

        var controller = expected.Plan.Controllers[0];
        if (FirmwareFiles.Of(expected.Plan, findings)[0].Image is not { } image)
        {
            return new(null, [.. findings]);
        }

        var wires = $"chip {controller.Chip} {imageName}\n{WithoutChip(SimulatorWires.Of(controller))}";
        return new(new([.. Encoding.ASCII.GetBytes(wires)], [.. Encoding.ASCII.GetBytes(image.File.Write())]), [.. findings]);
    }

    /// <summary>The chip's line is ours: it names the image.</summary>
    private static string WithoutChip(string wires) => wires.StartsWith("chip ", System.StringComparison.Ordinal) ? wires[(wires.IndexOf('\n', System.StringComparison.Ordinal) + 1)..] : wires;
}
