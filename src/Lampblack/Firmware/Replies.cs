using System;

namespace Lampblack.Firmware;

/// <summary>Ways of judging a reply.</summary>
internal static class Replies
{
    /// <summary>A reply that is known byte for byte.</summary>
    public static ReplyKind Fixed(byte[] wanted, byte[] received)
    {
        ArgumentNullException.ThrowIfNull(received);
        if (received.Length < wanted.Length)
        {
            return wanted.AsSpan().StartsWith(received) ? ReplyKind.More : ReplyKind.Wrong;
        }

        return received.AsSpan().SequenceEqual(wanted) ? ReplyKind.Right : ReplyKind.Wrong;
    }
}
