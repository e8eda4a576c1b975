using System.Collections.Immutable;
using System.IO;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;
using Lampblack.Tests.Checks;
using Lampblack.Wiring;

namespace Lampblack.Tests.Wiring;

/// <summary>Desks whose pins are planned: of a home observatory, a railway yard, a kiln.</summary>
internal static class WiredDesk
{
    /// <summary>A panel with many controls of one part in a grid.</summary>
    public static string Many(string part, int count, string id = "c", string more = "", string size = "[900, 900]", double left = 20, double top = 880) => string.Concat(Enumerable.Range(0, count).Select(index =>
        CheckedDesk.Control(part, left + (30 * (index % 28)), top - (30 * (index / 28)), $"id = \"{id}{index + 1}\"\n{more}"))) is var items ? items : string.Empty;

    /// <summary>A desk file with a controller.</summary>
    public static string Toml(string items, string chip = "ATmega2560", string controller = "", string wiring = "") =>
        CheckedDesk.Toml(items, $"[controller]\nchip = \"{chip}\"\n{controller}\n[wiring]\n{wiring}\n", size: "[900, 900]");

    /// <summary>The plan of a desk file.</summary>
    public static (PinPlan Plan, ImmutableArray<Finding> Findings, ImmutableArray<WiredNeed> Needs) Planned(string toml, PinPlan? before = null, params DimmerNeed[] dimmers)
    {
        var laid = CheckedDesk.Laid(toml);
        var needs = WiringNeeds.Of(laid);
        var plan = PinPlanning.Of(needs.Value, [.. dimmers], laid.Desk.Controller!, before);
        return (plan.Value, [.. needs.Findings, .. plan.Findings], needs.Value);
    }

    /// <summary>An example of the repository.</summary>
    public static LaidDesk Example(string name)
    {
        var read = DeskReader.Read("desk.toml", File.ReadAllBytes(Path.Combine(Register.SeparatedDesk.Root, "examples", name, "desk.toml")));
        return DeskLayout.Place(read.Value, FontShelf.Bundled).Value;
    }

    /// <summary>Every wire of a plan as words: what is joined to which pin.</summary>
    public static ImmutableArray<string> Wires(PinPlan plan) =>
    [
        .. plan.Controllers.SelectMany(one => one.Contacts.GroupBy(contact => contact.ItemId).SelectMany(group => group.Select((contact, number) => $"{one.Index} {contact.ItemId} contact {number}: {Place(one, contact.Place)}"))
            .Concat(one.Encoders.Select(encoder => $"{one.Index} {encoder.ItemId}: {encoder.PhaseA.Name} {encoder.PhaseB.Name}"))
            .Concat(one.Wipers.Select(wiper => $"{one.Index} {wiper.ItemId}: {wiper.Pin.Name}"))
            .Concat(one.Ladders.Select(ladder => $"{one.Index} {ladder.ItemId}: {ladder.Pin.Name}"))
            .Concat(one.Indicators.Select(lamp => $"{one.Index} {lamp.ItemId}: {(lamp.Place is DirectOutput direct ? direct.Pin.Name : lamp.Place.ToString())}"))
            .Concat(one.Dimmers.Select(dimmer => $"{one.Index} {dimmer.Channel}: {dimmer.Pin.Name}"))),
    ];

    private static string Place(ControllerPlan plan, InputPlace place) => place switch
    {
        DirectInput direct => direct.Pin.Name,
        MatrixInput matrix => $"{plan.Columns[matrix.Column].Name} x {plan.Rows[matrix.Row].Name}",
        _ => place.ToString(),
    };
}
