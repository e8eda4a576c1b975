using System.Collections.Immutable;
using Lampblack.Geometry;

namespace Lampblack.Jobs;

/// <summary>What an item on a panel is.</summary>
public enum ItemKind
{
    /// <summary>A part in its hole, with its words.</summary>
    Control,

    /// <summary>Free lettering.</summary>
    Legend,

    /// <summary>A scale on its own.</summary>
    Dial,

    /// <summary>A printed line, box, bracket or arrow.</summary>
    Rule,

    /// <summary>A filled area.</summary>
    Area,

    /// <summary>Artwork drawn elsewhere.</summary>
    Art,

    /// <summary>A hole that holds the panel.</summary>
    Fixing,
}

/// <summary>An item as one takes hold of it. Every copy of a row or grid is one of its own.</summary>
/// <param name="Address">Panel id, '/', item id (with '.n' for the n-th copy).</param>
/// <param name="Kind">What it is.</param>
/// <param name="Words">What it is for people: the words on it, or what kind of thing it is.</param>
/// <param name="Box">All that is seen of it.</param>
/// <param name="Anchor">The place by which it is put: a control's hole, a legend's place.</param>
/// <param name="Grip">Where it is taken hold of, as SVG path data in mm, y down from the panel's upper edge.</param>
/// <param name="CanTurn">Whether it can be turned.</param>
/// <param name="IsDrilled">Whether its hole is drilled.</param>
/// <param name="Copies">How many copies its table makes.</param>
/// <param name="Line">Its line in the desk file, from 1.</param>
public sealed record ItemView(
    string Address,
    ItemKind Kind,
    string Words,
    Box<PanelSpace> Box,
    Point<PanelSpace> Anchor,
    string Grip,
    bool CanTurn,
    bool IsDrilled,
    int Copies,
    int Line)
{
    /// <summary>The address without the copy's number: the table in the file.</summary>
    public string TableAddress => Copies > 1 && Address.LastIndexOf('.') is > 0 and var at ? Address[..at] : Address;
}

/// <summary>A panel as the workshop shows it.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Title">Its name for people.</param>
/// <param name="WidthMm">Its width.</param>
/// <param name="HeightMm">Its height.</param>
/// <param name="CornerMm">Radius of its corners.</param>
/// <param name="Frame">Its pictures' dots.</param>
/// <param name="Items">What is on it, the largest first, so that a smaller thing on a larger one can be taken hold of.</param>
public sealed record PanelView(string Id, string Title, double WidthMm, double HeightMm, double CornerMm, FaceFrame Frame, ImmutableArray<ItemView> Items);
