using System;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Edits;

namespace Lampblack.Workshop.Pages;

/// <summary>What lies on the shelf besides parts, and what becomes of each thing when it is put on a panel.</summary>
internal static class Shelved
{
    /// <summary>Things that are printed: a word for the page, and what it is.</summary>
    public static ImmutableArray<(string What, string Name)> Printed { get; } =
    [
        ("legend", "words"), ("line", "line"), ("box", "box"), ("bracket", "bracket"), ("arrow", "arrow"), ("dial", "dial"), ("area", "area"),
    ];

    /// <summary>The edit that puts a thing on a panel; null where there is no such thing.</summary>
    /// <param name="panel">The panel's id.</param>
    /// <param name="what">A thing that is printed, <c>part:</c> and a part's id, or <c>art:</c> and a file's name.</param>
    /// <param name="xMm">Its middle.</param>
    /// <param name="yMm">Its middle.</param>
    public static DeskEdit? Item(string panel, string what, double xMm, double yMm)
    {
        ArgumentNullException.ThrowIfNull(what);
        KeyValue at = Place(xMm, yMm);
        return what switch
        {
            "legend" => new AddItem(panel, "legend", [("text", KeyValue.Of("WORDS")), ("at", at)]),
            "line" => new AddItem(panel, "rule", [("line", new KeyList([Place(xMm - 15, yMm), Place(xMm + 15, yMm)])), ("width", new KeyNumber(0.5))]),
            "box" => new AddItem(panel, "rule", [("box", List(xMm - 15, yMm - 10, 30, 20)), ("corner", new KeyNumber(2)), ("width", new KeyNumber(0.5))]),
            "bracket" => new AddItem(panel, "rule", [("bracket", new KeyList([Place(xMm - 15, yMm), Place(xMm + 15, yMm)])), ("depth", new KeyNumber(2.5)), ("width", new KeyNumber(0.5))]),
            "arrow" => new AddItem(panel, "rule", [("arrow", new KeyList([Place(xMm - 8, yMm), Place(xMm + 8, yMm)])), ("head", new KeyNumber(2.5)), ("width", new KeyNumber(0.5))]),
            "dial" => new AddItem(
                panel, "dial", [("at", at), ("from", new KeyNumber(0)), ("to", new KeyNumber(10)), ("major", new KeyNumber(2)), ("minor", new KeyNumber(1)), ("start", new KeyNumber(-135)), ("end", new KeyNumber(135)), ("radius", new KeyNumber(10))]),
            "area" => new AddItem(panel, "area", [("box", List(xMm - 10, yMm - 6, 20, 12)), ("ink", KeyValue.Of("amber"))]),
            _ when what.StartsWith("part:", StringComparison.Ordinal) => new AddItem(panel, "control", [("part", KeyValue.Of(what[5..])), ("at", at), ("legend", KeyValue.Of("NAME"))]),
            _ when what.StartsWith("art:", StringComparison.Ordinal) => new AddItem(panel, "art", [("file", KeyValue.Of(what[4..])), ("at", at), ("width", new KeyNumber(40))]),
            _ => null,
        };
    }

    /// <summary>A place as the desk file has it.</summary>
    public static KeyValue Place(double xMm, double yMm) => List(xMm, yMm);

    private static KeyList List(params double[] lengthsMm) => new([.. lengthsMm.Select(mm => (KeyValue)new KeyNumber(Math.Round(mm, 4, MidpointRounding.AwayFromZero)))]);
}
