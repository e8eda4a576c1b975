using System.Collections.Immutable;

namespace Lampblack.Link;

/// <summary>What came of a step.</summary>
/// <param name="Send">Bytes to send to the panel, whole packets.</param>
/// <param name="Events">What happened, in order.</param>
/// <param name="Frames">Every frame that was taken, in order.</param>
public sealed record LinkStep(ImmutableArray<byte> Send, ImmutableArray<LinkEvent> Events, ImmutableArray<PanelFrame> Frames);
