using System.Collections.Immutable;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads how the desk is used.</summary>
internal static class UseReader
{
    private static readonly ImmutableArray<(string Word, bool Value)> Hands = [("one", false), ("two", true)];

    public static Use Read(TableReader root)
    {
        if (root.Table("use") is not { } table)
        {
            return Use.Usual;
        }

        var use = new Use(
            table.LengthMm("distance", 100, 10_000) ?? Use.Usual.DistanceMm,
            table.Choice("hands", Hands) ?? Use.Usual.TwoHands,
            table.Flag("gloves") ?? Use.Usual.Gloves,
            table.Flag("dim") ?? Use.Usual.Dim);
        table.Finish();
        return use;
    }
}
