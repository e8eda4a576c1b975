using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Edits;
using Lampblack.Quantities;

namespace Lampblack.Tests.Edits;

/// <summary>A random edit of a read desk, and what the desk is to be afterwards, made of its records and not of its text.</summary>
internal sealed record EditModel(DeskEdit Edit, Desk After, bool WithIds = true, Desk? Or = null)
{
    public static EditModel? Of(Desk desk, Random random)
    {
        var all = desk.Panels.SelectMany(panel => panel.Items.Select(item => (Panel: panel, Item: item))).ToList();
        if (all.Count == 0)
        {
            return null;
        }

        var (panel, one) = all[random.Next(all.Count)];
        var some = all.Where(pair => ReferenceEquals(pair.Item, one) || random.Next(6) == 0).ToList();
        string[] names = [.. some.Select(pair => Name(pair.Panel, pair.Item))];
        var (dx, dy) = (random.Next(-4000, 4000) / 1000.0, random.Next(3) == 0 ? 0 : random.Next(-40, 40) / 4.0);
        var count = one.Copies.Count;
        switch (random.Next(10))
        {
            case 0 or 1:
                return new(new MoveItems([.. names.Select(name => new ItemMove(name, dx, dy))]), Change(desk, some, item => Moved(item, dx, dy)));
            case 2:
                var by = random.Next(-200, 200);
                var turned = some.Where(pair => pair.Item is Control or Legend or ArtItem).ToList();
                return turned.Count == 0 ? null : new(new TurnItems([.. turned.Select(pair => Name(pair.Panel, pair.Item))], by), Change(desk, turned, item => Turned(item, by)));
            case 3 when one is Control or Legend:
                var words = random.Next(2) == 0 ? ImmutableArray.Create("NEW 'É'") : ["FLAT", "\"FIELD\" 🔥"];
                int? copy = count > 1 && random.Next(2) == 0 ? random.Next(count) + 1 : null;
                return new(new SetWords(Name(panel, one), words, copy), Change(desk, [(panel, one)], item => Worded(item, words, copy)));
            case 4 when one is Control or Legend:
                return new(new SetKey(Name(panel, one), "spacing", new KeyNumber(0.25)), Change(desk, [(panel, one)], item => item is Legend legend
                    ? legend with { Text = legend.Text with { SpacingMm = 0.25 } }
                    : (Control)item with { LegendText = ((Control)item).LegendText with { SpacingMm = 0.25 }, StateText = ((Control)item).StateText with { SpacingMm = 0.25 } }));
            case 5:
                var shape = new KeyList([new KeyNumber(12.5), new KeyNumber(13), new KeyNumber(2)]);
                var id = Fresh(panel, "area");
                return new(
                    new AddItem(panel.Id, "area", [("disc", shape)]),
                    Insert(desk, panel, [new FilledArea(id, panel.Span, new MarkStyle(LightRole.Unlit, Ink.None, false), Repetition.Once, new DiscForm(12.5, 13, 2))]));
            case 6:
                return new(new RemoveItems([.. names]), Change(desk, some, _ => null), false);
            case 7:
                // Copies come in the order of the file.
                var copies = some.OrderBy(pair => pair.Item.Span.Offset).Select(pair => (pair.Panel, Item: Moved(pair.Item, dx, dy) is Control { Drilled: not null } control ? control with { Drilled = null } : Moved(pair.Item, dx, dy)));
                return new(new CopyItems([.. names], dx, dy), copies.Aggregate(desk, (so, pair) => Insert(so, so.Panels.First(other => other.Id == pair.Panel.Id), [pair.Item])), false);
            case 8 when one is not Control { Drilled: not null }:
                var (columns, rows) = (random.Next(1, 4), random.Next(1, 3));
                var grid = new Repetition(columns, rows, columns * rows == 1 ? 0 : 21, columns * rows == 1 ? 0 : rows == 1 && random.Next(2) == 0 ? 0 : 17);
                return new(new Repeat(Name(panel, one), columns, rows, grid.StepXMm, grid.StepYMm), Change(desk, [(panel, one)], item => Repeated(item, grid)));
            case 9 when count > 1:
                return new(new SplitCopies(Name(panel, one)), Split(desk, panel, one, true), false, Split(desk, panel, one, false));
            default:
                return null;
        }
    }

    private static string Name(Panel panel, PanelItem item) => $"{panel.Id}/{item.Id}";

    private static string Fresh(Panel panel, string kind)
    {
        var number = panel.Items.OfType<FilledArea>().Count();
        string id;
        do
        {
            id = string.Create(CultureInfo.InvariantCulture, $"{kind}-{++number}");
        }
        while (panel.Items.Any(item => item.Id == id));
        return id;
    }

    private static Desk Change(Desk desk, List<(Panel Panel, PanelItem Item)> some, Func<PanelItem, PanelItem?> change) => desk with
    {
        Panels = [.. desk.Panels.Select(panel => panel with { Items = [.. panel.Items.Select(item => some.Any(pair => ReferenceEquals(pair.Item, item)) ? change(item) : item).OfType<PanelItem>()] })],
    };

    /// <summary>Puts items behind the last of their kind.</summary>
    private static Desk Insert(Desk desk, Panel panel, IEnumerable<PanelItem> items)
    {
        Type[] order = [typeof(ArtItem), typeof(FilledArea), typeof(Rule), typeof(FreeDial), typeof(Control), typeof(Legend)];
        return desk with { Panels = [.. desk.Panels.Select(other => other.Id == panel.Id ? other with { Items = [.. other.Items.Concat(items).OrderBy(item => Array.IndexOf(order, item.GetType()))] } : other)] };
    }

    /// <summary>The copies one by one: where the row stands, or all but the first behind the others of their kind.</summary>
    private static Desk Split(Desk desk, Panel panel, PanelItem row, bool isHere)
    {
        var copies = Enumerable.Range(0, row.Copies.Count).Select(copy =>
        {
            var (dx, dy) = row.Copies.ShiftOf(copy);
            return Moved(row, dx, dy) switch
            {
                Control control => control with { Copies = Repetition.Once, Legends = control.Legends.Length > 1 ? Own(control.Legends[copy]) : control.Legends },
                Legend legend => legend with { Copies = Repetition.Once, Texts = legend.Texts.Length > 1 ? [legend.Texts[copy]] : legend.Texts },
                var other => other with { Copies = Repetition.Once },
            };
        }).ToList();
        return isHere
            ? desk with { Panels = [.. desk.Panels.Select(other => other.Id == panel.Id ? other with { Items = [.. other.Items.SelectMany(item => ReferenceEquals(item, row) ? copies : [item])] } : other)] }
            : Insert(Change(desk, [(panel, row)], _ => copies[0]), panel, copies.Skip(1));

        static ImmutableArray<ImmutableArray<string>> Own(ImmutableArray<string> words) => words.All(word => word.Length == 0) ? [] : [words];
    }

    private static PanelItem Repeated(PanelItem item, Repetition grid)
    {
        return item switch
        {
            Control control => control with { Copies = grid, Legends = Words(control.Legends) },
            Legend legend => legend with { Copies = grid, Texts = Words(legend.Texts) },
            _ => item with { Copies = grid },
        };

        ImmutableArray<ImmutableArray<string>> Words(ImmutableArray<ImmutableArray<string>> words)
        {
            if (words.Length < 2)
            {
                return words;
            }

            ImmutableArray<ImmutableArray<string>> now =
            [
                .. Enumerable.Range(0, grid.Count).Select(copy => (Column: copy % grid.Columns, Row: copy / grid.Columns))
                    .Select(place => place.Column < item.Copies.Columns && place.Row < item.Copies.Rows ? words[(place.Row * item.Copies.Columns) + place.Column] : [""]),
            ];
            return now.Length == 1 && item is Control && now[0].All(word => word.Length == 0) ? [] : now;
        }
    }

    private static PanelItem Worded(PanelItem item, ImmutableArray<string> lines, int? copy)
    {
        var old = item is Control control ? control.Legends : ((Legend)item).Texts;
        ImmutableArray<ImmutableArray<string>> now = copy is not { } number ? [lines]
            : old.Length == 1 && old[0].SequenceEqual(lines) ? old
            : [.. Enumerable.Range(0, item.Copies.Count).Select(each => each == number - 1 ? lines : old.IsEmpty ? [""] : old.Length == 1 ? old[0] : old[each])];
        return item is Control other ? other with { Legends = now } : (Legend)item with { Texts = now };
    }

    private static PanelItem Turned(PanelItem item, double by)
    {
        return item switch
        {
            Control control => control with { TurnDegrees = Within(control.TurnDegrees) },
            Legend legend => legend with { TurnDegrees = Within(legend.TurnDegrees) },
            ArtItem art => art with { TurnDegrees = Within(art.TurnDegrees) },
            _ => item,
        };

        double Within(double old) => by is 0 ? old : ((old + by + 539.9999) % 360) - 179.9999;
    }

    private static PanelItem Moved(PanelItem item, double dx, double dy) => item switch
    {
        Control control => control with { XMm = control.XMm + dx, YMm = control.YMm + dy },
        Legend legend => legend with { XMm = legend.XMm + dx, YMm = legend.YMm + dy },
        FreeDial dial => dial with { XMm = dial.XMm + dx, YMm = dial.YMm + dy },
        ArtItem art => art with { XMm = art.XMm + dx, YMm = art.YMm + dy },
        FilledArea area => area with
        {
            Form = area.Form switch
            {
                BoxForm box => box with { LeftMm = box.LeftMm + dx, BottomMm = box.BottomMm + dy },
                DiscForm disc => disc with { XMm = disc.XMm + dx, YMm = disc.YMm + dy },
                PolygonForm form => new PolygonForm([.. form.CornersMm.Select(place => (place.XMm + dx, place.YMm + dy))]),
                var other => other,
            },
        },
        Rule rule => rule with
        {
            Form = rule.Form switch
            {
                LineForm line => line with { PointsMm = [.. line.PointsMm.Select(place => (place.XMm + dx, place.YMm + dy))] },
                ArrowForm arrow => arrow with { PointsMm = [.. arrow.PointsMm.Select(place => (place.XMm + dx, place.YMm + dy))] },
                ArcForm arc => arc with { XMm = arc.XMm + dx, YMm = arc.YMm + dy },
                FrameForm box => box with { LeftMm = box.LeftMm + dx, BottomMm = box.BottomMm + dy },
                BracketForm bracket => bracket with { FromXMm = bracket.FromXMm + dx, FromYMm = bracket.FromYMm + dy, ToXMm = bracket.ToXMm + dx, ToYMm = bracket.ToYMm + dy },
                var other => other,
            },
        },
        _ => item,
    };
}
