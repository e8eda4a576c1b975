using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Printers;

/// <summary>The words that a printer file and the command line use for what is chosen among a few.</summary>
public static class PrinterWords
{
    /// <summary>How a date is written: ISO 8601.</summary>
    public const string DateForm = "yyyy-MM-dd";

    /// <summary>A date as it is written; null where it is none.</summary>
    /// <param name="text">The text.</param>
    public static DateOnly? Date(string text) => DateOnly.TryParseExact(text, DateForm, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    /// <summary>Words for the edge that goes in first.</summary>
    public static ImmutableArray<(string Word, FirstEdge Value)> Edges { get; } = [("short", FirstEdge.Short), ("long", FirstEdge.Long)];

    /// <summary>Words for who turns the sheet.</summary>
    public static ImmutableArray<(string Word, Turning Value)> Turnings { get; } = [("by-hand", Turning.ByHand), ("automatic", Turning.Automatic)];

    /// <summary>Words for the order of the sides.</summary>
    public static ImmutableArray<(string Word, SideOrder Value)> Orders { get; } = [("front-first", SideOrder.FrontFirst), ("mask-first", SideOrder.MaskFirst)];

    /// <summary>Words for where a tick was seen.</summary>
    public static ImmutableArray<(string Word, Tick Value)> Ticks { get; } = [("A", Tick.A), ("B", Tick.B), ("front", Tick.Front)];

    /// <summary>Words for the printed face.</summary>
    public static ImmutableArray<(string Word, PrintedFace Value)> Faces { get; } = [("upper", PrintedFace.Upper), ("lower", PrintedFace.Lower)];

    /// <summary>Words for how a register entry was read; each stands for itself.</summary>
    public static ImmutableArray<string> Sources { get; } = ["readings", "dots", "both", "bracket", "verniers", "photos"];

    /// <summary>The word for a value; null for a value that nobody said.</summary>
    /// <typeparam name="T">What the words stand for.</typeparam>
    /// <param name="words">The words.</param>
    /// <param name="value">The value.</param>
    public static string? Of<T>(ImmutableArray<(string Word, T Value)> words, T value)
        where T : struct, Enum => words.FirstOrDefault(pair => pair.Value.Equals(value)).Word;
}
