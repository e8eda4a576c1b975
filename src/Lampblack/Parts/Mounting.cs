namespace Lampblack.Parts;

/// <summary>How a part is held in its hole.</summary>
public enum Mounting
{
    /// <summary>Put in from behind; a nut on its bushing holds it in front.</summary>
    NutInFront,

    /// <summary>Put in from the front; a ring nut holds it behind.</summary>
    RingBehind,

    /// <summary>A clip or bezel from the front, the lamp into it from behind.</summary>
    ClipFromFront,

    /// <summary>Pushed in from behind; it sticks, or a drop of glue holds it.</summary>
    PushedFromBehind,

    /// <summary>Pushed in from the front until it snaps.</summary>
    SnapsIn,

    /// <summary>Held behind by small screws through holes of their own.</summary>
    SmallScrews,

    /// <summary>A screw through the panel into what lies behind it.</summary>
    ScrewThrough,

    /// <summary>Nothing: the hole stays open.</summary>
    Open,

    /// <summary>By brackets or frames that only the sheet that came with it tells of.</summary>
    BySheet,
}
