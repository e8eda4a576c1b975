using Lampblack.Parts;

namespace Lampblack.Checks;

/// <summary>Kinds of controls as tables of spacing tell them apart.</summary>
public enum ControlKind
{
    /// <summary>Turned with a key.</summary>
    Key,

    /// <summary>A single push-button.</summary>
    PushButton,

    /// <summary>Push-buttons that stand so close that they are one keyboard.</summary>
    PushButtonArray,

    /// <summary>A push-button whose face carries its legend.</summary>
    LegendSwitch,

    /// <summary>A slide or rocker.</summary>
    Slide,

    /// <summary>A lever switch.</summary>
    Toggle,

    /// <summary>A thumbwheel.</summary>
    Thumbwheel,

    /// <summary>A selector with positions.</summary>
    Selector,

    /// <summary>A knob that turns freely.</summary>
    Knob,
}

/// <summary>Which parts are controls, and of which kind.</summary>
internal static class ControlKinds
{
    /// <summary>The kind of a part; null for what no hand works.</summary>
    public static ControlKind? Of(Part part) => part.Class switch
    {
        PartClass.KeySwitch => ControlKind.Key,
        PartClass.PushButton => part is { Illuminated: true, Bezel: RectangleCutout } ? ControlKind.LegendSwitch : ControlKind.PushButton,
        PartClass.Slider => ControlKind.Slide,
        PartClass.Toggle => ControlKind.Toggle,
        PartClass.Rotary => ControlKind.Selector,
        PartClass.Potentiometer or PartClass.Encoder => ControlKind.Knob,
        _ => null,
    };

    public static string Name(ControlKind kind) => kind switch
    {
        ControlKind.Key => "key switch",
        ControlKind.PushButton => "push-button",
        ControlKind.PushButtonArray => "group of push-buttons",
        ControlKind.LegendSwitch => "push-button with a legend on its face",
        ControlKind.Slide => "slider",
        ControlKind.Toggle => "toggle",
        ControlKind.Thumbwheel => "thumbwheel",
        ControlKind.Selector => "selector",
        _ => "knob",
    };
}
