namespace Lampblack.Parts;

/// <summary>What kind of thing a part is; rules of spacing and wiring go by it.</summary>
public enum PartClass
{
    /// <summary>A lever switch.</summary>
    Toggle,

    /// <summary>A push-button, lit or not.</summary>
    PushButton,

    /// <summary>A switch turned with a key.</summary>
    KeySwitch,

    /// <summary>A selector with fixed positions.</summary>
    Rotary,

    /// <summary>A turning potentiometer.</summary>
    Potentiometer,

    /// <summary>An endless turning encoder.</summary>
    Encoder,

    /// <summary>A straight-line potentiometer.</summary>
    Slider,

    /// <summary>An indicator lamp.</summary>
    Lamp,

    /// <summary>An instrument with a pointer or digits of its own.</summary>
    Meter,

    /// <summary>A character or graphic display.</summary>
    Display,

    /// <summary>A socket or feed-through.</summary>
    Connector,

    /// <summary>A screw with its clearance hole.</summary>
    Screw,

    /// <summary>A hole, a plug for one, or a grommet in one.</summary>
    Plain,
}
