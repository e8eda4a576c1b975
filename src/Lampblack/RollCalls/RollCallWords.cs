using System.Globalization;
using System.Linq;
using Lampblack.Wiring;

namespace Lampblack.RollCalls;

/// <summary>What the maker is asked, in plain words.</summary>
internal static class RollCallWords
{
    /// <summary>A step as a sentence.</summary>
    public static string Of(WiredControl control, CalledStep step, bool isTwoStates) => step.Kind switch
    {
        StepKind.Clockwise => $"Turn {control.Name} clockwise, about one turn.",
        StepKind.CounterClockwise => $"Turn {control.Name} counter-clockwise, about one turn.",
        StepKind.ToEnd => $"Move {control.Name} all the way to its end: clockwise, up or right.",
        StepKind.ToBeginning => $"Move {control.Name} all the way back to its beginning.",
        _ when control.Momentary && step.State == control.RestState => $"Let {control.Name} go.",
        _ when control.Momentary && isTwoStates => $"Press {control.Name} and hold it.",
        _ when control.Momentary => $"Hold {control.Name} at {control.States[step.State].Name}.",
        _ => $"Put {control.Name} to {control.States[step.State].Name}.",
    };

    /// <summary>What comes before the roll is called.</summary>
    public static string Before(System.Collections.Immutable.ImmutableArray<WiredControl> controls)
    {
        var hasStates = controls.Any(control => control.Kind == WiredKind.States && !control.Momentary);
        var hasTravel = controls.Any(control => control.Kind == WiredKind.Analog);
        return (hasStates, hasTravel) switch
        {
            (true, true) => "First put every switch and selector to its first position (up, or fully counter-clockwise), and every potentiometer and slider to its beginning.",
            (true, false) => "First put every switch and selector to its first position: up, or fully counter-clockwise.",
            (false, true) => "First put every potentiometer and slider to its beginning.",
            _ => "Take your hands off the panel.",
        };
    }

    /// <summary>Which state a control should stand in before the roll is called.</summary>
    public static string Standing(WiredControl control) => control.Kind switch
    {
        WiredKind.States => $"{control.Name} should stand in {control.States[First(control)].Name}",
        WiredKind.Analog => $"{control.Name} should stand at its beginning",
        _ => control.Name,
    };

    /// <summary>How a contact bounced.</summary>
    public static string Bounce(string contact, int changes, int ticks) => string.Create(
        CultureInfo.InvariantCulture,
        $"{char.ToUpperInvariant(contact[0])}{contact[1..]} bounces for {(ticks == 255 ? "31.9 ms or more" : $"{ticks / 8.0:0.0} ms")} ({changes} changes): it may be told twice. Another part would be better; the controller waits 20 ms.");

    /// <summary>The state that a control has before and after its call.</summary>
    public static int First(WiredControl control) => control.Momentary ? control.RestState : 0;
}
