using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Edits;

/// <summary>A value for a key of the desk file.</summary>
public abstract record KeyValue
{
    /// <summary>A text.</summary>
    public static KeyValue Of(string words) => new KeyText(words);

    /// <summary>A flag.</summary>
    public static KeyValue Of(bool flag) => new KeyFlag(flag);

    /// <summary>A list of texts.</summary>
    public static KeyValue Texts(params string[] words) => new KeyList([.. words.Select(Of)]);
}

/// <summary>A text. A length in another unit than mm is one too: <c>1/4 in</c>.</summary>
/// <param name="Words">The text without quotes.</param>
public sealed record KeyText(string Words) : KeyValue;

/// <summary>A number: of mm for a length. Where a text with a unit stands, it stays one in that unit.</summary>
/// <param name="Value">The number.</param>
public sealed record KeyNumber(double Value) : KeyValue;

/// <summary><c>true</c> or <c>false</c>.</summary>
/// <param name="Flag">Which of the two.</param>
public sealed record KeyFlag(bool Flag) : KeyValue;

/// <summary>A list.</summary>
/// <param name="Items">What is in it.</param>
public sealed record KeyList(ImmutableArray<KeyValue> Items) : KeyValue;

/// <summary>A small table, written between braces.</summary>
/// <param name="Keys">Its keys and values in their order.</param>
public sealed record KeyTable(ImmutableArray<(string Key, KeyValue Value)> Keys) : KeyValue;
