using System.Collections.Immutable;

namespace Lampblack.Layout;

/// <summary>Where the layout of one panel is gathered.</summary>
internal sealed class PanelBuilder
{
    public ImmutableArray<PlacedArt>.Builder Arts { get; } = ImmutableArray.CreateBuilder<PlacedArt>();

    public ImmutableArray<PlacedArea>.Builder Areas { get; } = ImmutableArray.CreateBuilder<PlacedArea>();

    public ImmutableArray<PlacedRule>.Builder Rules { get; } = ImmutableArray.CreateBuilder<PlacedRule>();

    public ImmutableArray<PlacedDial>.Builder Dials { get; } = ImmutableArray.CreateBuilder<PlacedDial>();

    public ImmutableArray<PlacedText>.Builder Texts { get; } = ImmutableArray.CreateBuilder<PlacedText>();

    public ImmutableArray<PlacedLeader>.Builder Leaders { get; } = ImmutableArray.CreateBuilder<PlacedLeader>();

    public ImmutableArray<PlacedPart>.Builder Parts { get; } = ImmutableArray.CreateBuilder<PlacedPart>();
}
