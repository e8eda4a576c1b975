using System.Collections.Immutable;
using System.Globalization;
using Lampblack.Findings;

namespace Lampblack.SourceText;

/// <content>Tables in the table.</content>
public sealed partial class TableReader
{
    /// <summary>A table, by header or between braces.</summary>
    /// <param name="key">The key.</param>
    /// <param name="what">What it is, for messages; by default its key.</param>
    public TableReader? Table(string key, string? what = null)
    {
        switch (Ask(key))
        {
            case null or BrokenNode:
                return null;
            case TableNode inner:
                return Inner(key, inner, what ?? Shown.Code(key));
            case ListNode { Items: [TableNode { Inline: false }, ..] } several:
                WrongKind(key, several, "one table", $"Write [{Header(key)}] with single brackets, once.");
                return null;
            case var other:
                WrongKind(key, other, "a table", $"Write it under a header [{Header(key)}], or between braces: `{key} = {{ … }}`.");
                return null;
        }
    }

    /// <summary>Tables: all under <c>[[key]]</c>, or a list of tables between braces.</summary>
    /// <param name="key">The key.</param>
    /// <param name="what">What one of them is, for messages; by default its key. A number is put behind it, from 1.</param>
    /// <returns>A reader for each, in the file's order. A single <c>[key]</c> gets a finding and a reader.</returns>
    public ImmutableArray<TableReader> Tables(string key, string? what = null)
    {
        var name = what ?? Shown.Code(key);
        switch (Ask(key))
        {
            case null or BrokenNode:
                return [];
            case TableNode single:
                WrongKind(key, single, "a list of tables", $"Write [[{Header(key)}]] with two brackets, or `{key} = [ {{ … }} ]`.");
                return [Inner(key, single, Numbered(name, 1))];
            case ListNode list:
                var readers = ImmutableArray.CreateBuilder<TableReader>();
                for (var i = 0; i < list.Items.Length; i++)
                {
                    switch (list.Items[i])
                    {
                        case TableNode inner:
                            readers.Add(Inner(key, inner, Numbered(name, i + 1)));
                            break;
                        case BrokenNode:
                            break;
                        case var other:
                            WrongKind(key, other, "a list of tables", $"Write a table between braces: `{key} = [ {{ … }} ]`.");
                            break;
                    }
                }

                return readers.ToImmutable();
            case var other:
                WrongKind(key, other, "a list of tables", $"Write [[{Header(key)}]] and its keys below, or `{key} = [ {{ … }} ]`.");
                return [];
        }
    }

    private static string Numbered(string name, int number) => name + " " + number.ToString(CultureInfo.InvariantCulture);

    private TableReader Inner(string key, TableNode inner, string name) => new(inner, name, findings) { Item = Item, _header = Header(key) };

    /// <summary>What stands between the brackets of a table's header: all tables that it lies in, too.</summary>
    private string Header(string key) => _header.Length == 0 ? key : $"{_header}.{key}";
}
