using System.Collections.Immutable;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Workshop.Bench;

/// <content>What is worked out beside the page, for the stations that show it.</content>
public sealed partial class DeskBench
{
    /// <summary>Where the light is planned, for the station that shows it.</summary>
    public PlanBench<LightView> Light { get; }

    /// <summary>Where pins and wires are planned, for the station that shows them.</summary>
    public PlanBench<WiringView> Wires { get; }

    /// <summary>Where the build book is written, for the station that shows it.</summary>
    public PlanBench<BookView> Book { get; }

    /// <summary>The legend whose own pages are wanted, as panel and item; null for none.</summary>
    public string? Legend { get; private set; }

    /// <summary>Chooses the legend whose own pages are wanted.</summary>
    /// <param name="item">Panel and item; null for none.</param>
    public void ChooseLegend(string? item)
    {
        Legend = item;
        Book.Anew(View, Settings);
    }

    /// <summary>Where the roll is called.</summary>
    public RollBench Roll { get; } = new();

    /// <summary>Calls the roll of this desk's panel.</summary>
    /// <param name="port">The port.</param>
    /// <param name="isSimulated">Whether a simulated panel takes its place.</param>
    /// <param name="only">Who is called; empty for all.</param>
    /// <param name="recordFile">Where the record is kept.</param>
    /// <param name="goesOn">Whether those who answered in it are left out.</param>
    public void CallRoll(string port, bool isSimulated, ImmutableArray<string> only, string recordFile, bool goesOn)
    {
        if (!isSimulated && string.IsNullOrEmpty(port))
        {
            Roll.Refuse("no panel is plugged in: there is no serial port. Name the port if you know better, or try it without a panel.");
            return;
        }

        Roll.Begin(_journal.Desk.Source, OutputFolder.LastWiring(OutputPath), isSimulated ? string.Empty : port, only, recordFile, goesOn ? RollCallRecord.Read(recordFile) : []);
    }
}
