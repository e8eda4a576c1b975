using System;

namespace Lampblack.Firmware;

/// <summary>What looking at a reply gave.</summary>
internal enum ReplyKind
{
    /// <summary>It is not all there.</summary>
    More,

    /// <summary>It is what was expected.</summary>
    Right,

    /// <summary>It is something else.</summary>
    Wrong,
}

/// <summary>One question to a boot loader and how its answer is judged.</summary>
/// <param name="Request">The bytes to send.</param>
/// <param name="Judge">Looks at all bytes that came since.</param>
/// <param name="Doing">What it is for, for a message: "writing 0x100".</param>
/// <param name="Fault">What a wrong answer means, where it means more than that.</param>
/// <param name="MayRepeat">Whether it does no harm to ask again where no answer comes.</param>
internal sealed record FlashExchange(byte[] Request, Func<byte[], ReplyKind> Judge, string Doing, string Fault = "", bool MayRepeat = false);
