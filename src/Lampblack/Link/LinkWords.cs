using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.Link;

/// <summary>What the line says in words for people.</summary>
internal static class LinkWords
{
    private const byte KnownLink = 1;

    /// <summary>Why this panel is not the expected one; null where it is.</summary>
    public static (LineState State, string Said)? Mismatch(HelloFrame hello, LinkExpectation expected)
    {
        if (hello.LinkVersion != KnownLink)
        {
            return (LineState.OtherVersion, FormattableString.Invariant(
                $"The panel speaks version {hello.LinkVersion} of the link, this program version {KnownLink}. Flash the panel again with this program, or take the program that it was flashed with."));
        }

        var controllers = expected.Plan.Controllers;
        if (hello.Counts == new PanelCounts(0, 0, 0, 0, 0, 0))
        {
            return (LineState.OtherPlan, "The panel runs the engine but has no plan of a desk in it. Flash it with this desk.");
        }

        if (hello.Controller >= controllers.Length)
        {
            return (LineState.OtherPlan, FormattableString.Invariant(
                $"The panel says it is controller {hello.Controller + 1}, the desk has {controllers.Length}. Flash it with this desk."));
        }

        var plan = controllers[hello.Controller];
        var counts = CountsOf(plan);
        if (hello.Counts != counts)
        {
            return (LineState.OtherPlan, $"The panel carries the plan of another desk, or an older one: it has {Of(hello.Counts)}, the desk has {Of(counts)}. Flash it with this desk.");
        }

        return expected.PlanHashes.Length > hello.Controller && expected.PlanHashes[hello.Controller] != hello.PlanHash
            ? (LineState.OtherPlan, FormattableString.Invariant(
                $"The panel carries the plan of another desk, or an older one (its mark is {hello.PlanHash:X8}, the desk's is {expected.PlanHashes[hello.Controller]:X8}). Flash it with this desk."))
            : null;
    }

    /// <summary>How many of each a controller has.</summary>
    public static PanelCounts CountsOf(ControllerPlan plan) =>
        new(plan.Contacts.Length, plan.Encoders.Length, plan.Wipers.Length, plan.Ladders.Length, plan.Indicators.Length, plan.Dimmers.Length);

    /// <summary>A command in words, to follow "will not".</summary>
    public static string Of(HostFrame command) => command switch
    {
        AskHello => "say who it is",
        AskSnapshot => "say where everything stands",
        SetIndicator lamp => FormattableString.Invariant($"switch indicator {lamp.Number + 1}"),
        SetDimmer dimmer => FormattableString.Invariant($"dim channel {dimmer.Number + 1}"),
        LampTest => "test its lamps",
        KeepLevels => "keep its brightness",
        _ => "tell how contacts bounce",
    };

    /// <summary>A result in words.</summary>
    public static string Of(CommandResult result) => result switch
    {
        CommandResult.Unknown => "it does not know how",
        CommandResult.WrongLength => "it expects another length",
        CommandResult.OutOfRange => "it has no such thing",
        _ => "it is busy",
    };

    /// <summary>Why the chip started: bits of MCUSR as in the chip makers' data sheets.</summary>
    public static string ResetCause(byte flags)
    {
        ImmutableArray<string> causes = ["power came", "its reset was pulled", "its supply sagged", "its watchdog bit", "its debugger asked"];
        var told = causes.Where((_, bit) => (flags & (1 << bit)) != 0).ToList();
        return told.Count == 0 ? "no cause told" : string.Join(", ", told);
    }

    private static string Of(PanelCounts counts) => string.Join(", ", new[]
    {
        Count(counts.Contacts, "contact"), Count(counts.Encoders, "encoder"), Count(counts.Wipers, "potentiometer"),
        Count(counts.Ladders, "ladder"), Count(counts.Indicators, "indicator"), Count(counts.Dimmers, "dimmed channel"),
    }.Where(text => text.Length > 0));

    private static string Count(int count, string what) => count == 0 ? string.Empty : FormattableString.Invariant($"{count} {what}{(count == 1 ? "" : "s")}");
}
