using System.Collections.Immutable;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Edits;
using Lampblack.Jobs;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;

namespace Lampblack.Workshop.Pages;

/// <summary>How the panels are cut: the plates that the maker has, the way of cutting, and the plan that comes of them.</summary>
public class CutPlanBase : ComponentBase
{
    private string? _next;

    /// <summary>The desk.</summary>
    [Parameter, EditorRequired]
    public DeskBench Bench { get; set; } = null!;

    /// <summary>The page's scripts.</summary>
    [Inject]
    public IJSRuntime Scripts { get; set; } = null!;

    /// <summary>The plates that are listed.</summary>
    protected ImmutableArray<PlateFacts> Plates => Bench.View.Plates;

    /// <summary>Why the last edit was refused; null where it was not.</summary>
    protected string? Refused { get; set; }

    /// <inheritdoc />
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (_next is { } id)
        {
            _next = null;
            await Scripts.InvokeVoidAsync("lampblackFocus", id);
        }
    }

    /// <summary>Writes a fact.</summary>
    protected void Write(string address, ItemFact fact, string? typed) => Do(FactEdits.Of(address, fact, typed ?? string.Empty));

    /// <summary>Lists another plate; its size is written next.</summary>
    protected void Another()
    {
        if (Do(Bench.View.AnotherPlate) && Plates is [.., var made])
        {
            _next = $"{IdOf(made.Address)}-size";
        }
    }

    /// <summary>Takes plates off the list. Their button is gone then, and the keyboard would be nowhere.</summary>
    protected void TakeOff(PlateFacts plates)
    {
        if (Do(new RemoveItems([plates.Address])))
        {
            _next = "another-plate";
        }
    }

    /// <summary>A way of cutting in words.</summary>
    protected static string Worded(string choice) => choice == "snap" ? "score and snap" : choice;

    /// <summary>A key or an address as the name of a field of the page.</summary>
    protected static string IdOf(string name) => string.Concat(name.Select(letter => letter is '.' or '[' ? "-" : letter == ']' ? string.Empty : letter.ToString()));

    private bool Do(DeskEdit edit)
    {
        Refused = Bench.Do(edit).Refusal;
        return Refused is null;
    }
}
