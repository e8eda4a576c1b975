using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Books;

/// <summary>A tool to lay out.</summary>
/// <param name="Name">What it is called, the same at every step.</param>
public sealed record BookTool(string Name)
{
    /// <summary>The sizes that are needed; empty where it has none.</summary>
    public ImmutableArray<ToolSize> Sizes { get; init; } = [];

    /// <summary>Its name with its sizes.</summary>
    public string Words => Sizes.IsEmpty ? Name : $"{Name}: {string.Join(", ", Sizes.Select(size => size.Words))}";

    /// <summary>A tool without sizes.</summary>
    /// <param name="name">Its name.</param>
    public static implicit operator BookTool(string name) => FromString(name);

    /// <summary>A tool without sizes.</summary>
    /// <param name="name">Its name.</param>
    public static BookTool FromString(string name) => new(name);

    /// <summary>Each tool once, with all its sizes, the smallest first.</summary>
    /// <param name="tools">The tools.</param>
    public static ImmutableArray<BookTool> Gathered(IEnumerable<BookTool> tools) =>
    [
        .. tools.GroupBy(tool => tool.Name, StringComparer.Ordinal).Select(same => new BookTool(same.Key)
        {
            Sizes = [.. same.SelectMany(tool => tool.Sizes).DistinctBy(size => size.Words).OrderBy(size => size.Mm).ThenBy(size => size.Words, StringComparer.Ordinal)],
        }),
    ];
}

/// <summary>A size of a tool.</summary>
/// <param name="Mm">The size.</param>
/// <param name="Words">As one asks for it in a shop: "6.5 mm", "1/4 in".</param>
public sealed record ToolSize(double Mm, string Words);

/// <summary>What tools are called.</summary>
internal static class Tool
{
    public const string Knife = "knife, new blades";
    public const string SteelRule = "steel rule";
    public const string Ruler = "ruler";
    public const string Caliper = "caliper";
    public const string Scissors = "scissors";
    public const string Pencil = "pencil";
    public const string Lamp = "lamp that stays cool (LED)";
    public const string Punches = "punches for paper";
    public const string Mallet = "mallet and cutting mat for the punches";
    public const string CuttingMat = "cutting mat";
    public const string Awl = "scriber or awl";
    public const string Drill = "drill whose speed can be set, or drill press";
    public const string Drills = "drills, points of 60 to 90 degrees";
    public const string HoleSaw = "step drill or hole saw";
    public const string FretSaw = "fretsaw";
    public const string File = "files, flat and round";
    public const string Clamps = "clamps";
    public const string Board = "board to work on";
    public const string Scorer = "scoring knife";
    public const string PlasticSaw = "fine saw for plastics";
    public const string Abrasive = "abrasive paper of 240 and 400 on a block";
    public const string FineAbrasive = "abrasive paper of 1000";
    public const string Brush = "fine brush";
    public const string Cloth = "clean cloth";
    public const string Books = "board with books on it";
    public const string Spanners = "spanners";
    public const string Screwdriver = "screwdriver";
    public const string WoodSaw = "saw for the box";
    public const string Iron = "soldering iron with its stand";
    public const string Cutter = "side cutter";
    public const string Stripper = "wire stripper";
    public const string HotAir = "hot-air gun for the sleeves";
    public const string LabelPen = "fine pen for labels";
    public const string Meter = "meter with a range that beeps, one for diodes, one for milliamperes";
    public const string Cells = "three AA cells in a holder";
    public const string Computer = "computer";
    public const string UsbCable = "USB cable that carries data";
    public const string Phone = "phone that takes photos, or a caliper";
    public const string Tweezers = "tweezers";
    public const string Needle = "needle";
    public const string HairDryer = "hair dryer";
    public const string Goggles = "goggles";
    public const string Gloves = "gloves for snapping";
    public const string Mask = "dust mask";
}
