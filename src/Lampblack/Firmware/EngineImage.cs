using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Reflection;
using System.Text;
using Lampblack.Findings;
using Lampblack.Formats;
using Lampblack.Parts;

namespace Lampblack.Firmware;

/// <summary>An engine as it is flashed, without a desk's table.</summary>
/// <param name="File">Its bytes.</param>
/// <param name="Chip">The chip it was built for.</param>
/// <param name="EngineVersion">Its own version.</param>
/// <param name="TableVersion">The form of table that it reads.</param>
/// <param name="LinkVersion">The frames that it speaks.</param>
/// <param name="Limits">How much it holds, as it says itself.</param>
public sealed record EngineImage(HexFile File, ControllerChip Chip, int EngineVersion, int TableVersion, int LinkVersion, EngineLimits Limits)
{
    /// <summary>Where an image says what it is; 16 bytes.</summary>
    private const int IdentityAddress = 0x5FE0;

    /// <summary>The engine that comes with the program, for a chip.</summary>
    public static EngineImage BuiltIn(ControllerChip chip)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream($"firmware/{chip}.hex")
            ?? throw new InvalidOperationException($"the engine for {chip} is not in the program");
        using var reader = new StreamReader(stream, Encoding.ASCII);
        return Read(reader.ReadToEnd()).Value!;
    }

    /// <summary>Reads an image from its HEX file; null where the text is no such file or says nothing of itself that we know.</summary>
    public static Checked<EngineImage?> Read(string hex)
    {
        var reading = HexFile.Read(hex);
        if (reading.Fault.Length > 0)
        {
            return Bad(FormattableString.Invariant($"the engine's file is damaged in line {reading.FaultLine}: {reading.Fault}"));
        }

        var identity = Enumerable.Range(IdentityAddress, 16).Select(address => (int)(reading.File[address] ?? 0)).ToImmutableArray();
        if (identity is not ['L', 'B', 'E', >= 1 and <= 3, ..])
        {
            return Bad("the file is no engine: it does not say what it is");
        }

        if (reading.File.Segments.Any(segment => segment.End > EngineLimits.TableAddress))
        {
            return Bad("the engine reaches into the place of the desk's table");
        }

        var limits = new EngineLimits(identity[7], identity[8], identity[9], identity[10], identity[11], identity[12]);
        return new(new EngineImage(reading.File, (ControllerChip)(identity[3] - 1), identity[4], identity[5], identity[6], limits), []);
    }

    private static Checked<EngineImage?> Bad(string message) =>
        new(null, [Finding.Stop("engine-image", message, "take the engine that comes with the program")]);
}
