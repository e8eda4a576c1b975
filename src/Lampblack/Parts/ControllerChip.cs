namespace Lampblack.Parts;

/// <summary>The chips that the firmware runs on.</summary>
public enum ControllerChip
{
    /// <summary>86 pins, of which common boards bring out 70; 16 analog inputs.</summary>
    ATmega2560,

    /// <summary>23 pins, of which common boards bring out 20; 6 analog inputs on those.</summary>
    ATmega328P,

    /// <summary>26 pins; 12 analog inputs; USB of its own.</summary>
    ATmega32U4,
}
