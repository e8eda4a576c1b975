using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Jobs;
using Lampblack.Workshop.Bench;
using Microsoft.AspNetCore.Components;

namespace Lampblack.Workshop.Pages;

/// <summary>The station where the build book is read and taken to the bench: its choices, its chapters one at a time, its files.</summary>
public class BookStationBase : ComponentBase, IDisposable
{
    private BookView? _kept;
    private MadeFiles? _made;

    /// <summary>The desk.</summary>
    [Parameter, EditorRequired]
    public DeskBench Bench { get; set; } = null!;

    /// <summary>Why the last edit was refused; null where it was not.</summary>
    protected string? Refused { get; set; }

    /// <summary>The chapter that is read.</summary>
    protected string Chapter { get; set; } = "opening";

    /// <summary>The book; of an earlier desk until the next is written, null before the first.</summary>
    protected BookView? View => Bench.Book.View;

    /// <summary>The chapter that is read; the first where the book has none of that name any more.</summary>
    protected ChapterView? Open => View?.Chapters.FirstOrDefault(chapter => chapter.Id == Chapter) ?? View?.Chapters.FirstOrDefault();

    /// <summary>The chapter before and the one after it; null at the ends.</summary>
    protected (ChapterView? Before, ChapterView? After) Beside
    {
        get
        {
            ImmutableArray<ChapterView> all = View?.Chapters ?? [];
            int index = Open is { } open ? all.IndexOf(open) : -1;
            return (index > 0 ? all[index - 1] : null, index >= 0 && index + 1 < all.Length ? all[index + 1] : null);
        }
    }

    /// <summary>The book's files as they are fetched; null before the first book.</summary>
    protected MadeFiles? Made
    {
        get
        {
            if (View is { Files.IsEmpty: false } view && !ReferenceEquals(view, _kept))
            {
                (_kept, _made) = (view, Bench.Shop.Keep(view.Files, Bench.OutputPath, null));
            }

            return View is { Files.IsEmpty: false } ? _made : null;
        }
    }

    /// <inheritdoc />
    public void Dispose()
    {
        GC.SuppressFinalize(this);
        Bench.Changed -= OnChanged;
        Bench.Book.Changed -= OnWriting;
    }

    /// <inheritdoc />
    protected override void OnInitialized()
    {
        Bench.Changed += OnChanged;
        Bench.Book.Changed += OnWriting;
        Bench.Book.Want(Bench.View, Bench.Settings);
    }

    /// <summary>Writes a fact.</summary>
    protected void Write(ItemFact fact, string? typed) => Refused = Bench.Do(FactEdits.Of(string.Empty, fact, typed ?? string.Empty)).Refusal;

    /// <summary>Chooses the legend whose own pages are wanted.</summary>
    protected void Choose(ChangeEventArgs change)
    {
        ArgumentNullException.ThrowIfNull(change);
        Bench.ChooseLegend(change.Value as string is { Length: > 0 } item ? item : null);
    }

    /// <summary>A fact's key as the name of a field of the page.</summary>
    protected static string IdOf(string key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return key.Replace('.', '-');
    }

    private void OnChanged(BenchNews news) => _ = InvokeAsync(() =>
    {
        Bench.Book.Want(Bench.View, Bench.Settings);
        StateHasChanged();
    });

    private void OnWriting() => _ = InvokeAsync(StateHasChanged);
}
