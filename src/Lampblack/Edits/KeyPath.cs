using System.Collections.Immutable;

namespace Lampblack.Edits;

/// <summary>Reads dotted keys as TOML writes them: <c>dial.labels."0"</c>.</summary>
internal static class KeyPath
{
    /// <summary>The parts; empty where it is no key.</summary>
    public static ImmutableArray<string> Read(string key)
    {
        var parts = ImmutableArray.CreateBuilder<string>();
        var at = 0;
        while (at < key.Length)
        {
            int end;
            if (key[at] is '"' or '\'')
            {
                end = key.IndexOf(key[at], at + 1);
                if (end < 0 || (end + 1 < key.Length && key[end + 1] != '.'))
                {
                    return [];
                }

                parts.Add(key[(at + 1)..end]);
                end++;
            }
            else
            {
                end = key.IndexOf('.', at) is var dot && dot < 0 ? key.Length : dot;
                if (string.IsNullOrWhiteSpace(key[at..end]))
                {
                    return [];
                }

                parts.Add(key[at..end].Trim());
            }

            at = end + 1;
        }

        return key.EndsWith('.') || parts.Count > 8 ? [] : parts.ToImmutable();
    }
}
