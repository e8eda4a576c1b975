namespace Lampblack.Link;

/// <summary>Something that happened at the panel, or to the line to it.</summary>
/// <param name="AtMs">When, in ms of the host's own clock.</param>
/// <param name="Id">The control's id, or the line's.</param>
public abstract record LinkEvent(long AtMs, string Id);

/// <summary>A switch, button or selector stands in another state.</summary>
/// <param name="AtMs">When.</param>
/// <param name="Id">The control.</param>
/// <param name="State">The state's name; null where it stands in none.</param>
public sealed record StateEvent(long AtMs, string Id, string? State) : LinkEvent(AtMs, Id);

/// <summary>An encoder was turned.</summary>
/// <param name="AtMs">When.</param>
/// <param name="Id">The control.</param>
/// <param name="Steps">Detents; clockwise is positive.</param>
public sealed record TurnEvent(long AtMs, string Id, int Steps) : LinkEvent(AtMs, Id);

/// <summary>A potentiometer or slider moved.</summary>
/// <param name="AtMs">When.</param>
/// <param name="Id">The control.</param>
/// <param name="ValueShare">0 at its beginning to 1 at its end.</param>
public sealed record TravelEvent(long AtMs, string Id, double ValueShare) : LinkEvent(AtMs, Id);

/// <summary>How the line to the panel is.</summary>
public enum LineState
{
    /// <summary>The port is open; the panel has not answered yet.</summary>
    Waiting,

    /// <summary>The panel answers, and where everything stands is known.</summary>
    Connected,

    /// <summary>The panel started anew while it was connected.</summary>
    Restarted,

    /// <summary>Frames were lost; the panel was asked where everything stands.</summary>
    Gap,

    /// <summary>The panel has said nothing for too long.</summary>
    Silent,

    /// <summary>The port is gone.</summary>
    Closed,

    /// <summary>The panel speaks another version.</summary>
    OtherVersion,

    /// <summary>The panel carries another desk's plan, or an older one.</summary>
    OtherPlan,

    /// <summary>The panel did not do what it was told.</summary>
    Refused,
}

/// <summary>The line changed.</summary>
/// <param name="AtMs">When.</param>
/// <param name="Id">The line: "controller-1" for the desk's first controller.</param>
/// <param name="State">How the line is now.</param>
/// <param name="Said">The same as a sentence for people.</param>
public sealed record LineEvent(long AtMs, string Id, LineState State, string Said) : LinkEvent(AtMs, Id);
