using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Wiring;

/// <summary>Joins what was needed with where it came to: the controls as the host sees them.</summary>
internal static class WiredControls
{
    public static ImmutableArray<WiredControl> Of(ImmutableArray<WiredNeed> needs, ImmutableArray<ControllerPlan> plans) =>
        [.. needs.Where(need => need.Kind != WiredKind.Data).Select(need => plans.Select(plan => Of(need, plan)).FirstOrDefault(control => control is not null)).OfType<WiredControl>()];

    private static WiredControl? Of(WiredNeed need, ControllerPlan plan)
    {
        var contacts = plan.Contacts.Index().Where(contact => contact.Item.ItemId == need.Id).Select(contact => contact.Index).ToImmutableArray();
        var ladder = plan.Ladders.Select(one => one.ItemId).ToImmutableArray().IndexOf(need.Id);
        var number = need.Kind switch
        {
            WiredKind.Analog => plan.Wipers.Select(one => one.ItemId).ToImmutableArray().IndexOf(need.Id),
            WiredKind.Encoder => plan.Encoders.Select(one => one.ItemId).ToImmutableArray().IndexOf(need.Id),
            WiredKind.Meter => plan.Dimmers.Select(one => one.IsMeter ? one.Channel : null).ToImmutableArray().IndexOf(need.Id),
            WiredKind.Indicator => plan.Indicators.Select(one => one.ItemId).ToImmutableArray().IndexOf(need.Id),
            _ => ladder,
        };
        return contacts.IsEmpty && number < 0 ? null : new()
        {
            Id = need.Id,
            Name = need.Name,
            Kind = need.Kind,
            Controller = plan.Index,
            Contacts = contacts,
            Number = number,
            States = [.. need.Positions.Select((name, position) => new WiredState(name, ladder >= 0 ? [] : [.. need.Contacts.Select(contact => contact.Closed[position])]))],
            BreaksBetween = need.BreaksBetween,
            Momentary = need.Momentary,
            RestState = need.RestState,
        };
    }
}
