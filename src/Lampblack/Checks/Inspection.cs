using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Layout;
using Lampblack.Parts;

namespace Lampblack.Checks;

/// <summary>One panel under inspection: what the rules look at, and where they tell what they find.</summary>
internal sealed class Inspection
{
    private readonly Dictionary<SourceSpan, PanelItem> _items = [];

    public Inspection(Desk desk, LaidPanel laid)
    {
        (Desk, Laid, Findings) = (desk, laid, new(laid.Panel));
        foreach (var item in laid.Panel.Items)
        {
            _ = _items.TryAdd(item.Span, item);
        }

        Controls =
        [
            .. laid.Parts.Where(part => ItemOf(part.Origin) is Control && ControlKinds.Of(part.Part) is not null)
                .Select(part => new WorkedControl(part, (Control)ItemOf(part.Origin)!, ControlKinds.Of(part.Part)!.Value, Grip.Of(part))),
        ];
    }

    public Desk Desk { get; }

    public LaidPanel Laid { get; }

    public RuleFindings Findings { get; }

    /// <summary>What hands work, copies counted.</summary>
    public ImmutableArray<WorkedControl> Controls { get; }

    /// <summary>The item that something comes from; null for fixings.</summary>
    public PanelItem? ItemOf(Origin origin) => _items.GetValueOrDefault(origin.Span);

    /// <summary>Whether a part takes a screw that holds something.</summary>
    public bool IsFastener(PlacedPart part) => part.Part.Class == PartClass.Screw || part.Origin.Span == Laid.Panel.Fixings?.Span;
}

/// <summary>A control that hands work, in its place.</summary>
/// <param name="Placed">Its part.</param>
/// <param name="Control">As written.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Grip">What fingers touch.</param>
internal sealed record WorkedControl(PlacedPart Placed, Control Control, ControlKind Kind, Grip Grip)
{
    public Origin Origin => Placed.Origin;
}
