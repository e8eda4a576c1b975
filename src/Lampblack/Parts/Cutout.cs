using System;
using System.Collections.Generic;
using System.Globalization;
using Lampblack.Geometry;

namespace Lampblack.Parts;

/// <summary>An opening in the panel, or the outline of what stands on it, centred on the part's anchor.</summary>
public abstract record Cutout
{
    private protected Cutout()
    {
    }

    /// <summary>How much larger than named the opening may be; nothing where no tolerance is known.</summary>
    public Figure? TolerancePlus { get; init; }

    /// <summary>The size as a drill or saw is chosen, in mm without the unit: "6.5", "45 x 26".</summary>
    public abstract string SizeText { get; }

    /// <summary>Every figure in it, with the name it has in a message.</summary>
    public abstract IEnumerable<(string What, Figure Figure)> Figures { get; }

    /// <summary>The opening as an area, in mm; the anchor is the origin. Empty where a size is not above zero.</summary>
    public abstract Region<ItemSpace> Shape();

    /// <summary>The same as a line with true arcs, counter-clockwise, for tools that follow arcs. Every size must be above zero.</summary>
    public abstract ArcPath<ItemSpace> Line();

    /// <summary>The line along which the paper over it is opened, with true arcs, counter-clockwise: a circle where a punch does it.</summary>
    /// <param name="marginMm">How far beyond the opening's edge, in mm, 0 or above.</param>
    public abstract ArcPath<ItemSpace> PaperLine(double marginMm);

    /// <summary>A number of mm for people: at most three decimals, a point, no zeros at the end.</summary>
    internal static string Text(double mm) => mm.ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>A box of the given size around the origin.</summary>
    private protected static Box<ItemSpace> Centred(double widthMm, double heightMm) =>
        new(-widthMm / 2, -heightMm / 2, widthMm, heightMm);
}

/// <summary>A drilled hole, or a round thing.</summary>
/// <param name="Diameter">Its diameter.</param>
public sealed record RoundCutout(Figure Diameter) : Cutout
{
    /// <inheritdoc/>
    public override string SizeText => Text(Diameter.Mm);

    /// <inheritdoc/>
    public override IEnumerable<(string What, Figure Figure)> Figures => [("diameter", Diameter)];

    /// <inheritdoc/>
    public override Region<ItemSpace> Shape() => Region<ItemSpace>.Disc(default, Diameter.Mm / 2);

    /// <inheritdoc/>
    public override ArcPath<ItemSpace> Line() => ArcPath<ItemSpace>.Circle(default, Diameter.Mm / 2);

    /// <inheritdoc/>
    public override ArcPath<ItemSpace> PaperLine(double marginMm) => ArcPath<ItemSpace>.Circle(default, (Diameter.Mm / 2) + marginMm);
}

/// <summary>An upright rectangle, sawn or filed.</summary>
/// <param name="Width">Along x.</param>
/// <param name="Height">Along y.</param>
/// <param name="Corner">Largest radius that may stay in the corners; zero for sharp ones.</param>
public sealed record RectangleCutout(Figure Width, Figure Height, Figure Corner) : Cutout
{
    /// <inheritdoc/>
    public override string SizeText => $"{Text(Width.Mm)} x {Text(Height.Mm)}";

    /// <inheritdoc/>
    public override IEnumerable<(string What, Figure Figure)> Figures =>
        [("width", Width), ("height", Height), ("corner", Corner)];

    /// <inheritdoc/>
    public override Region<ItemSpace> Shape() => Region<ItemSpace>.RoundedRectangle(Centred(Width.Mm, Height.Mm), Corner.Mm);

    /// <inheritdoc/>
    public override ArcPath<ItemSpace> Line() => ArcPath<ItemSpace>.RoundedRectangle(Centred(Width.Mm, Height.Mm), Corner.Mm);

    /// <inheritdoc/>
    public override ArcPath<ItemSpace> PaperLine(double marginMm) =>
        ArcPath<ItemSpace>.RoundedRectangle(Centred(Width.Mm, Height.Mm).Grow(marginMm), Corner.Mm > 0 ? Corner.Mm + marginMm : 0);
}

/// <summary>A slot with round ends.</summary>
/// <param name="Length">From end to end, the round ends included.</param>
/// <param name="Width">Across.</param>
/// <param name="DirectionDegrees">Its run, counter-clockwise from the x axis: 0 lies, 90 stands.</param>
public sealed record SlotCutout(Figure Length, Figure Width, double DirectionDegrees) : Cutout
{
    /// <inheritdoc/>
    public override string SizeText => $"{Text(Length.Mm)} x {Text(Width.Mm)}";

    /// <inheritdoc/>
    public override IEnumerable<(string What, Figure Figure)> Figures => [("length", Length), ("width", Width)];

    /// <inheritdoc/>
    public override Region<ItemSpace> Shape() => Region<ItemSpace>
        .RoundedRectangle(Centred(Length.Mm, Width.Mm), Math.Min(Length.Mm, Width.Mm) / 2)
        .Map(Affine<ItemSpace, ItemSpace>.Turn(DirectionDegrees));

    /// <inheritdoc/>
    public override ArcPath<ItemSpace> Line() => ArcPath<ItemSpace>
        .RoundedRectangle(Centred(Length.Mm, Width.Mm), Math.Min(Length.Mm, Width.Mm) / 2)
        .Map(Affine<ItemSpace, ItemSpace>.Turn(DirectionDegrees));

    /// <inheritdoc/>
    public override ArcPath<ItemSpace> PaperLine(double marginMm) => ArcPath<ItemSpace>
        .RoundedRectangle(Centred(Length.Mm, Width.Mm).Grow(marginMm), (Math.Min(Length.Mm, Width.Mm) / 2) + marginMm)
        .Map(Affine<ItemSpace, ItemSpace>.Turn(DirectionDegrees));
}

/// <summary>A round hole with straight sides that stop the part from turning: two (left and right), or one (right).</summary>
/// <param name="Diameter">The circle.</param>
/// <param name="AcrossFlats">From flat to flat, or from the one flat to the circle opposite.</param>
/// <param name="OneFlat">Whether only the right side is flat.</param>
public sealed record FlattedCutout(Figure Diameter, Figure AcrossFlats, bool OneFlat = false) : Cutout
{
    /// <inheritdoc/>
    public override string SizeText => $"{Text(Diameter.Mm)}, {Text(AcrossFlats.Mm)} across {(OneFlat ? "the flat" : "flats")}";

    /// <inheritdoc/>
    public override IEnumerable<(string What, Figure Figure)> Figures =>
        [("diameter", Diameter), ("across flats", AcrossFlats)];

    /// <inheritdoc/>
    public override Region<ItemSpace> Shape()
    {
        var left = OneFlat ? -Diameter.Mm / 2 : -AcrossFlats.Mm / 2;
        var between = new Box<ItemSpace>(left, -Diameter.Mm, AcrossFlats.Mm, 2 * Diameter.Mm);
        return Region<ItemSpace>.Disc(default, Diameter.Mm / 2).Intersect(Region<ItemSpace>.Rectangle(between));
    }

    /// <inheritdoc/>
    public override ArcPath<ItemSpace> Line()
    {
        var radiusMm = Diameter.Mm / 2;
        var right = OneFlat ? AcrossFlats.Mm - radiusMm : AcrossFlats.Mm / 2;
        var half = Math.Sqrt((radiusMm * radiusMm) - (right * right));
        var flatDegrees = Math.Acos(right / radiusMm) * 180 / Math.PI;
        return OneFlat
            ? new([new(new(right, half), ArcPath<ItemSpace>.BulgeOf(360 - (2 * flatDegrees))), new(new(right, -half), 0)])
            : new(
            [
                new(new(right, half), ArcPath<ItemSpace>.BulgeOf(180 - (2 * flatDegrees))), new(new(-right, half), 0),
                new(new(-right, -half), ArcPath<ItemSpace>.BulgeOf(180 - (2 * flatDegrees))), new(new(right, -half), 0),
            ]);
    }

    /// <inheritdoc/>
    public override ArcPath<ItemSpace> PaperLine(double marginMm) => ArcPath<ItemSpace>.Circle(default, (Diameter.Mm / 2) + marginMm);
}
