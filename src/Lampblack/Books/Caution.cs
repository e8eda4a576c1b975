using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Books;

/// <summary>Something that can hurt, and how to keep it from doing so. Common practice, no source; makers' own instructions and local codes come first.</summary>
/// <param name="Id">Its name within the page.</param>
/// <param name="Title">What it is about.</param>
/// <param name="Words">The caution.</param>
public sealed record Caution(string Id, string Title, string Words)
{
    /// <summary>What it asks one to wear.</summary>
    public ImmutableArray<BookTool> Gear { get; init; } = [];

    /// <summary>Of the whole thing: where it must not be used.</summary>
    public static Caution Use { get; } = new("use", "What such a panel is not for", "Never for aircraft, vehicles, machine safety, medical or fire use. A button on such a panel sends a message and cuts no power: never draw an emergency stop that is not one. No mains inside a panel. Where anything else than a low voltage from a certified supply is concerned, your local code and licensed people come first.");

    /// <summary>Toner and heat.</summary>
    public static Caution Fuser { get; } = new("fuser", "Printing", "The fuser and paper fresh from it are hot. Only paper and film that the printer's maker allows. Too much toner can wrap round the fuser: stop when toner flakes or the next sheet shows ghosts.");

    /// <summary>Spray glue.</summary>
    public static Caution Glue { get; } = new("glue", "Spray glue", "Outdoors or with the windows open, no flame, no sparks, no smoking, until the smell is gone: the vapour burns, and lies on the floor. Do not breathe it. Keep it off skin and eyes; read the can.");

    /// <summary>Paint and varnish.</summary>
    public static Caution Paint { get; } = new("paint", "Paint and varnish", "Outdoors or with the windows open, no flame, no sparks. Do not breathe the mist; read the can.");

    /// <summary>Knives.</summary>
    public static Caution Knife { get; } = new("knife", "Knives", "A new blade, the other hand behind it. Cut away from yourself; straight cuts run along steel, never along wood or plastics.");

    /// <summary>Snapping.</summary>
    public static Caution Snap { get; } = new("snap", "Scoring and snapping", "Eye protection; gloves for snapping. Clamp the plate on a board, score away from yourself, and snap over the table's edge with a covered hand. Edges and chips are sharp.") { Gear = [Tool.Goggles, Tool.Gloves] };

    /// <summary>Sawing.</summary>
    public static Caution Saw { get; } = new("saw", "Sawing", "Eye protection, no gloves near a saw that runs. Clamp the plate on a board, keep hands away from the blade, saw slowly: acrylic grabs, melts and cracks. Edges are sharp. The saw's own instructions come first.") { Gear = [Tool.Goggles] };

    /// <summary>Drilling.</summary>
    public static Caution Drill { get; } = new("drill", "Drilling", "Eye protection. Clamp the plate, never hold it by hand under a drill; no gloves, sleeves or hair near a turning drill. Chips are sharp; acrylic burns. The drill's own instructions come first.") { Gear = [Tool.Goggles] };

    /// <summary>Dust.</summary>
    public static Caution Dust { get; } = new("dust", "Filing and sanding", "A dust mask and eye protection; wipe dust up damp, do not blow it about.") { Gear = [Tool.Mask, Tool.Goggles] };

    /// <summary>Wood.</summary>
    public static Caution Wood { get; } = new("wood", "Sawing and drilling wood", "Eye protection and a dust mask: wood dust harms the lungs; wipe it up, do not blow it about. Clamp each piece, the free hand never before the blade; no gloves, sleeves or hair near what turns. The saw's own instructions come first.") { Gear = [Tool.Goggles, Tool.Mask] };

    /// <summary>Soldering.</summary>
    public static Caution Solder { get; } = new("solder", "Soldering", "Everything unplugged. Safety glasses, a window open: do not breathe the smoke of the flux. The iron in its stand, its tip is 350 °C hot; wash your hands after solder with lead. Be quick at a tag: heat goes through the part into acrylic and print.") { Gear = [Tool.Goggles] };

    /// <summary>Hot air.</summary>
    public static Caution Heat { get; } = new("heat", "Hot air", "Hot air burns skin and softens acrylic and toner: blow away from the panel, shortly, with card between, and lay the gun down where nothing can catch fire.");

    /// <summary>Lamps' supply.</summary>
    public static Caution Supply { get; } = new("supply", "The lamps' supply", "Low voltage only: a certified supply of limited current, with a fuse close to it, no mains inside. Your local code and licensed people come first. Bright emitters: do not stare into them.");

    /// <summary>Two supplies.</summary>
    public static Caution Volts { get; } = new("volts", "5 V and the lamps' supply", "The controller gets its 5 V from USB; never join it to another supply's 5 V, only the 0 V are joined. Never a higher voltage on a pin or on the 5 V wire: one touch destroys the controller and perhaps the computer.");

    /// <summary>The chapter's page, in this order.</summary>
    public static ImmutableArray<Caution> All { get; } = [Use, Fuser, Knife, Glue, Paint, Snap, Saw, Drill, Dust, Wood, Solder, Heat, Supply, Volts];

    /// <summary>Those that a book's steps have, with those of every book.</summary>
    /// <param name="steps">The steps.</param>
    public static ImmutableArray<Caution> Gathered(IEnumerable<BookStep> steps)
    {
        System.ArgumentNullException.ThrowIfNull(steps);
        var used = steps.SelectMany(step => step.Cautions).ToHashSet();
        return [.. All.Where(caution => caution == Use || used.Contains(caution))];
    }
}
