using System.Collections.Immutable;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads which findings of an item, or of a whole panel, the maker lets stand; whether there are such findings is looked at where they are made.</summary>
internal static class AcceptReader
{
    public static ImmutableArray<Acceptance> Read(TableReader owner)
    {
        var accepts = ImmutableArray.CreateBuilder<Acceptance>();
        foreach (var table in owner.Tables("accept"))
        {
            var code = table.RequiredText("finding", "\"controls-close\"");
            var because = table.RequiredText("because", "\"only one of them is used at a time\"");
            if (code is not null && because is not null)
            {
                accepts.Add(new(code, because, table.SpanOf("finding")));
            }

            table.Finish();
        }

        return accepts.ToImmutable();
    }
}
