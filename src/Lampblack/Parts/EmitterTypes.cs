using System;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Parts;

/// <summary>The emitters that a desk can name.</summary>
public static class EmitterTypes
{
    private const double StripVolts = 12;
    private const double PixelVolts = 5;

    /// <summary>All of them: single ones first.</summary>
    public static ImmutableArray<EmitterType> All { get; } =
    [
        new("emitter-5mm-wide", "5 mm lamp with a flat top, wires through a board", EmitterForm.Single, 60, 6, 6, 6, Lumens(0.02, 5, 6, 1.8, 1.8, 4, 0.9)) { MostAmperes = 0.03, HasLegs = true },
        new("emitter-5mm-round", "5 mm lamp with a round top, wires through a board", EmitterForm.Single, 15, 6, 6, 9, Lumens(0.02, 5, 6, 1.8, 1.8, 4, 0.9)) { MostAmperes = 0.03, HasLegs = true },
        new("emitter-3528", "3.5 x 2.8 mm emitter, soldered flat", EmitterForm.Single, 60, 6, 6, 2, Lumens(0.02, 6, 7, 1.8, 1.8, 4.5, 1)) { MostAmperes = 0.03 },
        new("emitter-2835", "2.8 x 3.5 mm emitter of 0.2 W, soldered flat", EmitterForm.Single, 60, 6, 6, 1, Lumens(0.06, 22, 24, 6, 6, 14, 4)) { MostAmperes = 0.08 },
        new("strip-60", "Strip of 12 V, 60 emitters a metre, cut every 50 mm", EmitterForm.Strip, 60, 50 / 3.0, 8, 2, Lumens(0.02, 6, 7, 1.8, 1.8, 4.5, 1)) { UnitCount = 3, FeedVolts = StripVolts },
        new("strip-120", "Strip of 12 V, 120 emitters a metre, cut every 25 mm", EmitterForm.Strip, 60, 25 / 3.0, 8, 2, Lumens(0.02, 6, 7, 1.8, 1.8, 4.5, 1)) { UnitCount = 3, FeedVolts = StripVolts },
        new("pixels-60", "Strip of pixels of 5 V, 60 a metre, cut between any two", EmitterForm.Pixels, 60, 50 / 3.0, 12, 2, Lumens(0.05, 12, 15, 4, 8, 9, 2.5)) { FeedVolts = PixelVolts },
        new("pixels-30", "Strip of pixels of 5 V, 30 a metre, cut between any two", EmitterForm.Pixels, 60, 100 / 3.0, 12, 2, Lumens(0.05, 12, 15, 4, 8, 9, 2.5)) { FeedVolts = PixelVolts },
    ];

    /// <summary>What is taken where a desk chooses none.</summary>
    public static EmitterType Usual => All[0];

    /// <summary>What light-tight cells get where the rest is lit by strips.</summary>
    public static EmitterType InCells => All[2];

    /// <summary>The emitter of that id; nothing where there is none.</summary>
    public static EmitterType? Find(string id) => All.FirstOrDefault(type => string.Equals(type.Id, id, StringComparison.Ordinal));

    private static ImmutableSortedDictionary<EmitterColour, EmitterFigures> Lumens(double amperes, double warm, double cool, double red, double amber, double green, double blue) =>
        ImmutableSortedDictionary.CreateRange<EmitterColour, EmitterFigures>(
        [
            new(EmitterColour.WarmWhite, new(warm, amperes)), new(EmitterColour.CoolWhite, new(cool, amperes)), new(EmitterColour.Red, new(red, amperes)),
            new(EmitterColour.Amber, new(amber, amperes)), new(EmitterColour.Green, new(green, amperes)), new(EmitterColour.Blue, new(blue, amperes)),
        ]);
}
