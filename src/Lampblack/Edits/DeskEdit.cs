using System.Collections.Immutable;

namespace Lampblack.Edits;

/// <summary>What somebody wants changed in a desk file.</summary>
/// <remarks>
/// Items are named as findings name them: <c>panel/item</c>, the item by its id or, without one, by kind and number (<c>control-3</c>); <c>panel/item.2</c> is a copy of a row
/// or grid, <c>panel/fixing-1</c> one of the holes that hold the panel, <c>panel</c> the panel itself, <c>stock[2]</c> the second kind of plates,
/// and the empty text the top of the file.
/// </remarks>
public abstract record DeskEdit;

/// <summary>How far an item is to be moved.</summary>
/// <param name="Item">The item; of a row or grid the whole row moves, whichever copy is named.</param>
/// <param name="DxMm">To the right, front view.</param>
/// <param name="DyMm">Upwards.</param>
public sealed record ItemMove(string Item, double DxMm, double DyMm);

/// <summary>Moves items with all their places.</summary>
/// <param name="Moves">Which, and how far.</param>
public sealed record MoveItems(ImmutableArray<ItemMove> Moves) : DeskEdit;

/// <summary>Turns controls, legends and artwork.</summary>
/// <param name="Items">Which.</param>
/// <param name="ByDegrees">How far from where they are, clockwise.</param>
public sealed record TurnItems(ImmutableArray<string> Items, double ByDegrees) : DeskEdit;

/// <summary>Sets the words of a control or legend.</summary>
/// <param name="Item">The item; <c>panel/item.2</c> says the copy as well.</param>
/// <param name="Lines">The words, line by line; none takes them away.</param>
/// <param name="Copy">Which copy of a row or grid, from 1 as in findings; null for all.</param>
/// <param name="State">Which of a control's states, from 1; null for its legend.</param>
public sealed record SetWords(string Item, ImmutableArray<string> Lines, int? Copy = null, int? State = null) : DeskEdit;

/// <summary>Sets a key, or takes it away.</summary>
/// <param name="Item">Whose key: an item, a panel, plates, the name of a table at the top of the file, or empty for the top itself.</param>
/// <param name="Key">The key, as <c>height</c> or <c>dial.from</c>.</param>
/// <param name="Value">Its new value; null takes the key away.</param>
public sealed record SetKey(string Item, string Key, KeyValue? Value) : DeskEdit;

/// <summary>Adds an item behind all others of its panel.</summary>
/// <param name="Panel">The panel's id.</param>
/// <param name="Kind"><c>control</c>, <c>legend</c>, <c>dial</c>, <c>rule</c>, <c>area</c> or <c>art</c>.</param>
/// <param name="Keys">Its keys in the order in which they are to stand; an id is made where none is among them.</param>
public sealed record AddItem(string Panel, string Kind, ImmutableArray<(string Key, KeyValue Value)> Keys) : DeskEdit;

/// <summary>Adds a panel behind all others.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Title">Its title; none where empty.</param>
/// <param name="WidthMm">Width of the finished panel.</param>
/// <param name="HeightMm">Height of the finished panel.</param>
public sealed record AddPanel(string Id, string Title, double WidthMm, double HeightMm) : DeskEdit;

/// <summary>Adds plates to those that panels are cut from, behind all others.</summary>
/// <param name="WidthMm">Their width.</param>
/// <param name="HeightMm">Their height.</param>
public sealed record AddPlate(double WidthMm, double HeightMm) : DeskEdit;

/// <summary>Where an emitter stands.</summary>
/// <param name="XMm">From the panel's lower left corner to the right, seen from the front.</param>
/// <param name="YMm">Upwards.</param>
public sealed record EmitterPlace(double XMm, double YMm);

/// <summary>Writes where a panel's emitters stand, in place of those that are written.</summary>
/// <param name="Panel">The panel's id.</param>
/// <param name="Places">The places; none takes all out, so that they are planned again.</param>
public sealed record KeepEmitters(string Panel, ImmutableArray<EmitterPlace> Places) : DeskEdit;

/// <summary>Removes items, panels or plates, each with the remarks right above it and the tables in it.</summary>
/// <param name="Items">Which.</param>
public sealed record RemoveItems(ImmutableArray<string> Items) : DeskEdit;

/// <summary>Copies items as they are written, remarks too, under new ids.</summary>
/// <param name="Items">Which.</param>
/// <param name="DxMm">How far right of the original the copy stands.</param>
/// <param name="DyMm">How far above it.</param>
public sealed record CopyItems(ImmutableArray<string> Items, double DxMm, double DyMm) : DeskEdit;

/// <summary>Makes an item a row or grid of copies; one by one makes it single again.</summary>
/// <param name="Item">The item.</param>
/// <param name="Columns">How many side by side.</param>
/// <param name="Rows">How many one below the other.</param>
/// <param name="StepXMm">From column to column, to the right.</param>
/// <param name="StepYMm">From row to row, downwards; of a single row, how far each copy rises.</param>
public sealed record Repeat(string Item, int Columns, int Rows, double StepXMm, double StepYMm) : DeskEdit;

/// <summary>Writes the copies of a row or grid as items of their own.</summary>
/// <param name="Item">The row or grid.</param>
public sealed record SplitCopies(string Item) : DeskEdit;
