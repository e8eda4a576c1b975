using System.Collections.Immutable;
using Lampblack.Wiring;

namespace Lampblack.Link;

/// <summary>What the panel at the other end should be.</summary>
/// <param name="Plan">The desk's pins.</param>
/// <param name="PlanHashes">For each controller the CRC-32 of its table without its own checksum; empty where they are not known, so that only counts are compared.</param>
public sealed record LinkExpectation(PinPlan Plan, ImmutableArray<uint> PlanHashes);
