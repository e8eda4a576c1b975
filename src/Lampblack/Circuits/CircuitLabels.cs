using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>What a channel's parts are called, alike in the drawing and in the parts list. L stands for the lamps: a bare R1, C1 or Q1 could be a row, a column or an output of the wiring.</summary>
/// <param name="Resistors">The resistor of each kind of string.</param>
/// <param name="Number">The channel's number, from 1.</param>
internal sealed record CircuitLabels(ImmutableArray<string> Resistors, int Number)
{
    /// <summary>In the data line of pixels. Common practice, no source.</summary>
    public const double DataOhms = 330;

    /// <summary>Takes a high level from 2 V, and gives its own supply's.</summary>
    public const string ShifterChip = "74AHCT125";

    public string Switch => Numbered("QL");

    public string Gate => Numbered("RG");

    public string PullDown => Numbered("RP");

    public string Data => Numbered("RD");

    public string Capacitor => Numbered("CL");

    public string Shifter => Numbered("UL");

    public static ImmutableArray<CircuitLabels> Of(CircuitPlan plan)
    {
        var labels = ImmutableArray.CreateBuilder<CircuitLabels>(plan.Channels.Length);
        var next = 1;
        foreach (var channel in plan.Channels)
        {
            labels.Add(new([.. Enumerable.Range(next, channel.Strings.Length).Select(number => Text("RL", number))], labels.Count + 1));
            next += channel.Strings.Length;
        }

        return labels.MoveToImmutable();
    }

    private static string Text(string letters, int number) => letters + number.ToString(CultureInfo.InvariantCulture);

    private string Numbered(string letters) => Text(letters, Number);
}
