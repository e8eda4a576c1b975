namespace Lampblack.Geometry;

/// <summary>Marks a coordinate space, so that a point of one can't be used in another. All spaces are in mm, x right, y up, but for <see cref="DotSpace"/>.</summary>
#pragma warning disable CA1040 // A marker on purpose: the space is a type without data.
public interface ISpace;
#pragma warning restore CA1040

/// <summary>One panel seen from the front; origin at its lower-left corner.</summary>
public readonly struct PanelSpace : ISpace;

/// <summary>One panel seen from behind; origin at its lower-left corner as it is seen so, which is the lower right one from the front.</summary>
public readonly struct BackSpace : ISpace;

/// <summary>A portrait sheet of paper seen from the front, both sides alike; origin at its lower-left corner.</summary>
public readonly struct SheetSpace : ISpace;

/// <summary>A page as the printer gets it: the printer undone, the back mirrored; origin at the page's lower-left corner.</summary>
public readonly struct PageSpace : ISpace;

/// <summary>A drawing that shows how things are joined, not where they lie; origin at its lower-left corner.</summary>
public readonly struct DrawingSpace : ISpace;

/// <summary>One item on its own (a glyph run, a dial, a hole); origin at the item's anchor.</summary>
public readonly struct ItemSpace : ISpace;

/// <summary>
/// A picture made of dots, in dots instead of mm: x right, y DOWN, as its rows are counted; origin at its upper left corner, so that the first dot
/// reaches from 0 to 1 both ways. A map from here tells mm for each dot.
/// </summary>
public readonly struct DotSpace : ISpace;
