using System.Collections.Immutable;

namespace Lampblack.Parts;

/// <summary>How emitters are bought and put down.</summary>
public enum EmitterForm
{
    /// <summary>One by one.</summary>
    Single,

    /// <summary>On a strip with resistors built in, that is cut between its units.</summary>
    Strip,

    /// <summary>On a strip, each told its colour over a data line.</summary>
    Pixels,
}

/// <summary>What an emitter of one colour gives and takes. All from memory: typical of many data sheets, and batches differ by a third.</summary>
/// <param name="FluxLumens">All its light at that current.</param>
/// <param name="Amperes">The current it is meant for; for strips that of one unit.</param>
public sealed record EmitterFigures(double FluxLumens, double Amperes);

/// <summary>A kind of emitter one can buy, by form and size. All figures are from memory.</summary>
/// <param name="Id">What a desk file calls it.</param>
/// <param name="Name">What it is, in plain words.</param>
/// <param name="Form">How it is bought.</param>
/// <param name="HalfAngleDegrees">From its axis to where its intensity is half.</param>
/// <param name="WidthMm">Floor that one takes, along a strip: the pitch.</param>
/// <param name="HeightMm">Floor that one takes, across a strip.</param>
/// <param name="RaisedMm">How far its light starts above the floor.</param>
/// <param name="Colours">What it gives in each colour that it comes in.</param>
public sealed record EmitterType(
    string Id,
    string Name,
    EmitterForm Form,
    double HalfAngleDegrees,
    double WidthMm,
    double HeightMm,
    double RaisedMm,
    ImmutableSortedDictionary<EmitterColour, EmitterFigures> Colours)
{
    /// <summary>How many emitters make the shortest piece that can be put down; 1 but for strips.</summary>
    public int UnitCount { get; init; } = 1;

    /// <summary>Whether it has legs that go through a board; else it is soldered flat.</summary>
    public bool HasLegs { get; init; }

    /// <summary>Volts that a strip or pixels are made for; null for single ones.</summary>
    public double? FeedVolts { get; init; }

    /// <summary>The current a single one bears for long.</summary>
    public double? MostAmperes { get; init; }
}
