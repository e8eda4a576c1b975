using System.Collections.Generic;
using System.Linq;
using Lampblack.Findings;
using Lampblack.SourceText;

namespace Lampblack.Edits;

/// <summary>An edit under way: the text so far, the splices of the step that is being made, and what was noticed.</summary>
/// <param name="desk">The text before the edit.</param>
internal sealed class EditWork(DeskText desk)
{
    private readonly List<Splice> _step = [];
    private readonly DeskText _first = desk;

    /// <summary>The text as of the last step.</summary>
    public DeskText Desk { get; private set; } = desk;

    /// <summary>What was noticed.</summary>
    public List<Finding> Findings { get; } = [];

    /// <summary>Where the items stand that were edited or made.</summary>
    public List<ItemPlace> Touched { get; } = [];

    /// <summary>Number of a panel that was edited or made as such.</summary>
    public int? TouchedPanel { get; set; }

    /// <summary>What was done, in words.</summary>
    public string Words { get; set; } = string.Empty;

    /// <summary>Whether anything was changed so far.</summary>
    public bool IsChanged => _step.Count > 0 || !ReferenceEquals(Desk, _first);

    /// <summary>Puts splices into this step.</summary>
    public void Add(params IEnumerable<Splice> splices) => _step.AddRange(splices);

    /// <summary>Makes this step's splices and reads the text anew.</summary>
    /// <exception cref="BrokenStepException">It can't be read any more: the text was written in a way that nobody thought of.</exception>
    public void Step()
    {
        if (_step.Count > 0)
        {
            Desk = Desk.With(_step);
            _step.Clear();
            if (Desk.Faults.FirstOrDefault(fault => fault.Severity == Severity.Stop) is { } fault)
            {
                throw new BrokenStepException(fault);
            }
        }
    }

    /// <summary>Notes that an item was edited, and writes down its id where it has none, so that it keeps its name whatever comes before it later.</summary>
    /// <param name="item">The item as of the last step.</param>
    /// <param name="writeId">False where it was named, but stays as it is.</param>
    public void Touch(ItemEntry item, bool writeId = true)
    {
        if (!Touched.Contains(item.Place))
        {
            Touched.Add(item.Place);
            if (writeId && item.Table.FindEntry("id") is null)
            {
                Add(new KeyWriter(Desk).InsertFirst(item.Table, "id", $"\"{item.Id}\""));
            }
        }
    }

    /// <summary>The item that an address leads to; refused where there is none.</summary>
    public Target? Item(string address)
    {
        var target = Find(address);
        if (target is { Item: null })
        {
            Refuse($"{Shown.Code(address)} is no item of a panel", "name it as `panel/item`", item: address);
            return null;
        }

        return target;
    }

    /// <summary>What an address leads to; refused where there is nothing.</summary>
    public Target? Find(string address)
    {
        var target = Desk.Find(address);
        if (target is null)
        {
            var known = Desk.Panels.SelectMany(panel => panel.Items.Select(Desk.AddressOf).Prepend(panel.Id));
            Refuse(
                $"there is no {Shown.Code(address)} in the desk file",
                Nearest.To(address, known) is { } near ? $"did you mean {Shown.Code(near)}?" : "it may have been removed or renamed; look at the list of items",
                item: address);
        }

        return target;
    }

    /// <summary>Refuses the edit. Nothing of it is kept.</summary>
    /// <returns>Always false.</returns>
    public bool Refuse(string message, string hint, SourceSpan? span = null, string? item = null)
    {
        Findings.Add(Finding.Stop("edit-refused", $"{message}; nothing was changed", hint, span, item));
        return false;
    }

    /// <summary>Refuses the edit because of how a table is written.</summary>
    /// <returns>Always false.</returns>
    public bool RefuseForm(string what, SourceSpan span, string item) =>
        Refuse($"{what} of `{item}` is written in a way that can't be changed without touching something else", "change it in the text itself", span, item);
}
