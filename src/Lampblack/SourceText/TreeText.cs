using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text;

namespace Lampblack.SourceText;

/// <summary>What a file says, without places, blanks and remarks: the same text for files that read alike.</summary>
internal static class TreeText
{
    /// <summary>All tables of a file, each before those within it, in the order of the file.</summary>
    public static IEnumerable<TableNode> Tables(Node node) => node switch
    {
        TableNode table => table.Entries.SelectMany(entry => Tables(entry.Value)).Prepend(table),
        ListNode list => list.Items.SelectMany(Tables),
        _ => [],
    };

    /// <summary>The whole file, leaving out one key of certain tables.</summary>
    /// <param name="root">The file's table.</param>
    /// <param name="key">The key.</param>
    /// <param name="without">Numbers of the tables, in the order of <see cref="Tables"/>.</param>
    public static string Of(TableNode root, string key, IReadOnlySet<int> without)
    {
        var text = new StringBuilder();
        var number = 0;
        Write(root);
        return text.ToString();

        void Write(Node node)
        {
            switch (node)
            {
                case TableNode table:
                    var leaves = without.Contains(number++);
                    text.Append(table.Inline ? "i{" : "{");
                    foreach (var entry in table.Entries.Where(entry => !leaves || entry.Key != key))
                    {
                        Quoted(entry.Key);
                        Write(entry.Value);
                    }

                    text.Append('}');
                    break;
                case ListNode list:
                    text.Append('[');
                    foreach (var item in list.Items)
                    {
                        Write(item);
                    }

                    text.Append(']');
                    break;
                case TextNode words:
                    Quoted(words.Value);
                    break;
                case NumberNode amount:
                    text.Append(amount.Written).Append(' ');
                    break;
                case FlagNode flag:
                    text.Append(flag.Value).Append(' ');
                    break;
                case TimeNode time:
                    text.Append(time.Written).Append(' ');
                    break;
                default:
                    text.Append("? ");
                    break;
            }
        }

        void Quoted(string words) => text.Append(CultureInfo.InvariantCulture, $"'{words.Length}:{words}'");
    }
}
