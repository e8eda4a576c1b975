using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Edits;
using Lampblack.Jobs;
using Lampblack.Quantities;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.JSInterop;

namespace Lampblack.Workshop.Pages;

/// <summary>The facts of what is held, hung on it as tags and edited right there.</summary>
public class ItemTagsBase : ComponentBase, IDisposable
{
    private string _table = string.Empty;
    private string? _focus;
    private readonly PriceTold _items = new();
    private readonly PriceTold _written = new();
    private (string Held, int Version) _priced;

    [Inject]
    private IJSRuntime Script { get; set; } = null!;

    /// <summary>The desk.</summary>
    [Parameter, EditorRequired]
    public DeskBench Bench { get; set; } = null!;

    /// <summary>The panel.</summary>
    [Parameter, EditorRequired]
    public PanelView Panel { get; set; } = null!;

    /// <summary>What is held.</summary>
    [Parameter, EditorRequired]
    public Hands Hands { get; set; } = null!;

    /// <summary>In which unit the maker reads lengths.</summary>
    [CascadingParameter]
    public LengthUnit Unit { get; set; }

    /// <summary>Told what is to be edited.</summary>
    [Parameter]
    public EventCallback<DeskEdit> OnEdit { get; set; }

    /// <summary>Ways of putting several items in order.</summary>
    protected static ImmutableArray<(Arrangement How, string Words)> Ways { get; } =
    [
        (Arrangement.LeftEdges, "left edges in line"), (Arrangement.MiddlesAbove, "middles above each other"), (Arrangement.RightEdges, "right edges in line"),
        (Arrangement.UpperEdges, "upper edges in line"), (Arrangement.MiddlesBeside, "middles side by side"), (Arrangement.LowerEdges, "lower edges in line"),
        (Arrangement.EvenAcross, "even steps across"), (Arrangement.EvenUp, "even steps upwards"),
    ];

    /// <summary>The single item that is held; null where several are.</summary>
    protected ItemView? One => Hands.Held.Length == 1 ? Panel.Items.FirstOrDefault(item => item.Address == Hands.Held[0]) : null;

    /// <summary>Its facts.</summary>
    protected ImmutableArray<ItemFact> Facts { get; private set; } = [];

    /// <summary>The key of the fact that is being written; null for none.</summary>
    protected string? Written { get; private set; }

    /// <summary>Whether facts are told, too, that are as usual.</summary>
    protected bool ShowsAll { get; set; }

    /// <summary>Whether it has a scale that ranges can be put on.</summary>
    protected bool HasDial => Facts.Any(fact => fact.Key == "dial.from") || One?.Kind == ItemKind.Dial;

    /// <summary>What the tags are about.</summary>
    protected string Name => One is { } item ? $"Facts of {item.Words}" : "Several items";

    /// <summary>What it costs to move what is held, to copy it, or to take it off; empty until that is known.</summary>
    protected string ItemsPrice => _items.Words;

    /// <summary>What the fact that is being written would cost as it is written now; empty until that is known, and where it would be refused.</summary>
    protected string WrittenPrice => _written.Words;

    /// <summary>What lies between two held items.</summary>
    protected string? Measure
    {
        get
        {
            ItemView[] held = [.. Hands.Held.Select(address => Panel.Items.FirstOrDefault(item => item.Address == address)).OfType<ItemView>()];
            if (held.Length != 2)
            {
                return null;
            }

            (double gapX, double gapY, double x, double y) = Arrange.Between(held[0], held[1]);
            string gap = Math.Max(gapX, gapY) is var far && far > 0 ? string.Create(CultureInfo.InvariantCulture, $"{LengthWords.Exact(far, Unit)} from edge to edge{(gapX > gapY ? " across" : " up")}") : "they overlap";
            return string.Create(CultureInfo.InvariantCulture, $"{gap}; middles {LengthWords.Exact(Math.Abs(x), Unit)} across, {LengthWords.Exact(Math.Abs(y), Unit)} up, {LengthWords.Exact(Math.Sqrt((x * x) + (y * y)), Unit)} apart");
        }
    }

    /// <inheritdoc />
    protected override void OnParametersSet()
    {
        string table = One?.TableAddress ?? string.Empty;
        if (table != _table)
        {
            (_table, Written, ShowsAll) = (table, null, false);
        }

        Facts = table.Length == 0 ? [] : Bench.View.FactsOf(table);
        (string Held, int Version) wanted = (string.Join('\n', Hands.Held), Bench.Version);
        if (wanted != _priced)
        {
            if (wanted.Held != _priced.Held)
            {
                // What another thing costs is not said of this one.
                _items.Forget();
            }

            _priced = wanted;
            string[] tables = [.. Hands.Held.Select(address => Panel.Items.FirstOrDefault(item => item.Address == address)?.TableAddress).OfType<string>().Distinct()];
            _ = _items.Ask(() => Prices.OfItems(Bench, tables), Show);
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        GC.SuppressFinalize(this);
        _items.Forget();
        _written.Forget();
    }

    private Task Show() => InvokeAsync(StateHasChanged);

    /// <inheritdoc />
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_focus is { } id)
        {
            _focus = null;
            await Script.InvokeVoidAsync("lampblackFocus", id);
        }
    }

    /// <summary>Whether a fact is told at once: what is written in the file, and what one looks for first.</summary>
    protected bool IsToldFirst(ItemFact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        return fact.Value.Length > 0 || fact.Key == Written || fact.Key is "legend" or "text" or "role" or "ink" or "states";
    }

    /// <summary>A fact's value, as it is told on its tag.</summary>
    protected string OnTag(ItemFact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        string value = fact.Value.Length > 0 ? fact.Told(Unit) : fact.Usual.Length > 0 ? fact.ToldUsual(Unit) : "none";
        value = value.ReplaceLineEndings(" / ");
        return value.Length > 28 ? value[..28] + "…" : value;
    }

    /// <summary>Begins to write a fact.</summary>
    protected void Begin(ItemFact fact)
    {
        ArgumentNullException.ThrowIfNull(fact);
        Written = fact.Key;
        _focus = $"tag-{fact.Key}";
        _written.Forget();
        if (fact.Kind == FactKind.Choice)
        {
            string table = _table;
            _ = _written.Ask(() => Prices.OfChoices(Bench, table, fact), Show);
        }
    }

    /// <summary>Tells what it costs as it is typed.</summary>
    protected void Typed(ItemFact fact, string? typed)
    {
        ArgumentNullException.ThrowIfNull(fact);
        (string table, string meant) = (_table, fact.Meant(typed, Unit));
        _ = _written.Ask(() => meant == fact.Value ? string.Empty : Prices.Of(Bench, FactEdits.Of(table, fact, meant)), Show);
    }

    /// <summary>Ends the writing; what was written becomes an edit.</summary>
    protected async Task Finish(ItemFact fact, string? typed)
    {
        ArgumentNullException.ThrowIfNull(fact);
        if (Written != fact.Key)
        {
            // A field that Escape took off the page says once more what was typed into it.
            return;
        }

        Written = null;
        if (typed is not null && fact.Meant(typed, Unit) is var meant && meant != fact.Value)
        {
            await Do(FactEdits.Of(_table, fact, meant));
        }
    }

    /// <summary>Leaves a fact as it was.</summary>
    protected void Escape(KeyboardEventArgs key)
    {
        ArgumentNullException.ThrowIfNull(key);
        if (key.Key == "Escape")
        {
            Written = null;
        }
    }

    /// <summary>Makes copies of the held item.</summary>
    protected Task Copies(int columns, int rows) => One is { } item
        ? Do(new Edits.Repeat(item.TableAddress, columns, rows, Math.Ceiling(item.Box.WidthMm) + 4, rows == 1 ? 0 : Math.Ceiling(item.Box.HeightMm) + 4))
        : Task.CompletedTask;

    /// <summary>Makes the copies items of their own.</summary>
    protected async Task Split()
    {
        if (One is { } item)
        {
            await Do(new SplitCopies(item.TableAddress));
        }
    }

    /// <summary>Puts a range on the upper end of the held scale.</summary>
    protected async Task AddRange()
    {
        if (Facts.FirstOrDefault(fact => fact.Kind == FactKind.Ranges) is not { } ranges
            || !double.TryParse(Facts.FirstOrDefault(fact => fact.Key == ranges.Key.Replace("ranges", "from", StringComparison.Ordinal))?.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double from)
            || !double.TryParse(Facts.FirstOrDefault(fact => fact.Key == ranges.Key.Replace("ranges", "to", StringComparison.Ordinal))?.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double to))
        {
            return;
        }

        // The upper fifth, and what is there already before it.
        string fresh = string.Create(CultureInfo.InvariantCulture, $"{to - ((to - from) / 5):0.####} to {to:0.####} amber");
        await Do(FactEdits.Of(_table, ranges, ranges.Value.Length == 0 ? fresh : $"{ranges.Value}, {fresh}"));
    }

    /// <summary>Puts the held items in order.</summary>
    protected Task Order(Arrangement how) =>
        Do(Arrange.Moves(Hands.Held.Select(address => Panel.Items.FirstOrDefault(item => item.Address == address)).OfType<ItemView>(), how));

    private async Task Do(DeskEdit edit)
    {
        if (edit is MoveItems { Moves.IsEmpty: true })
        {
            return;
        }

        await OnEdit.InvokeAsync(edit);
    }
}
