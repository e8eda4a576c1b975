using System;
using System.Collections;
using System.Collections.Generic;
using System.Linq;
using System.Reflection;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.Quantities;
using Xunit;

namespace Lampblack.Tests.Edits;

/// <summary>All that a read desk says, without places in its text: to tell whether two are alike.</summary>
internal static class DeskPrint
{
    /// <summary>Compares two desks; lengths to 0.1 µm, as an edit rounds them.</summary>
    public static void AssertAlike(Desk expected, Desk found, bool withIds)
    {
        var (wanted, have) = (Of(expected, withIds), Of(found, withIds));
        if (FirstOther(wanted, have) is var i && i >= 0)
        {
            Assert.Fail($"expected {string.Join(' ', wanted.Skip(Math.Max(0, i - 12)).Take(24))}\nfound    {string.Join(' ', have.Skip(Math.Max(0, i - 12)).Take(24))}");
        }

        Assert.Equal(wanted.Count, have.Count);
    }

    /// <summary>The same as an answer.</summary>
    public static bool AreAlike(Desk expected, Desk found, bool withIds)
    {
        var (wanted, have) = (Of(expected, withIds), Of(found, withIds));
        return wanted.Count == have.Count && FirstOther(wanted, have) < 0;
    }

    private static int FirstOther(List<object> wanted, List<object> have)
    {
        for (var i = 0; i < Math.Min(wanted.Count, have.Count); i++)
        {
            if (wanted[i] is double number && have[i] is double other ? Math.Abs(number - other) > 0.000051 : !wanted[i].Equals(have[i]))
            {
                return i;
            }
        }

        return -1;
    }

    private static List<object> Of(Desk desk, bool withIds)
    {
        var words = new List<object>();
        Add(desk with { Parts = PartCatalogue.BuiltIn });
        return words;

        void Add(object? value)
        {
            switch (value)
            {
                case null:
                    words.Add("-");
                    break;
                case SourceSpan:
                    break;
                case double number:
                    words.Add(number);
                    break;
                case string or bool or int or Enum:
                    words.Add(value);
                    break;
                case PartCatalogue or NamedInks:
                    break;
                case Part part:
                    words.Add(part.Id);
                    break;
                case Ink ink:
                    words.Add(ink.ToString());
                    break;
                case System.Runtime.CompilerServices.ITuple tuple:
                    for (var i = 0; i < tuple.Length; i++)
                    {
                        Add(tuple[i]);
                    }

                    break;
                case IEnumerable list:
                    words.Add("[");
                    foreach (var item in list)
                    {
                        Add(item);
                    }

                    words.Add("]");
                    break;
                default:
                    words.Add(value.GetType().Name);
                    foreach (var property in value.GetType().GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(property => property.GetIndexParameters().Length == 0 && (withIds || property.Name != "Id" || value is not PanelItem)))
                    {
                        words.Add(property.Name);
                        Add(property.GetValue(value));
                    }

                    break;
            }
        }
    }
}
