using System.Linq;
using Lampblack.Parts;
using Xunit;

namespace Lampblack.Tests.Wiring;

/// <summary>Pins of common boards, by public pin tables; limits by the chips' data sheets.</summary>
public sealed class ControllerTableTests
{
    /// <summary>Rows 68 and 69 of the published figures, and more of the same tables.</summary>
    [Theory]
    [InlineData("ATmega2560", "D13", "PB7")]
    [InlineData("ATmega2560", "D20", "PD1")]
    [InlineData("ATmega2560", "D53", "PB0")]
    [InlineData("ATmega2560", "D0", "PE0")]
    [InlineData("ATmega2560", "D22", "PA0")]
    [InlineData("ATmega2560", "D37", "PC0")]
    [InlineData("ATmega2560", "D42", "PL7")]
    [InlineData("ATmega2560", "A8", "PK0")]
    [InlineData("ATmega2560", "a15", "PK7")]
    [InlineData("ATmega32U4", "D7", "PE6")]
    [InlineData("ATmega32U4", "A0", "PF7")]
    [InlineData("ATmega32U4", "A5", "PF0")]
    [InlineData("ATmega328P", "D2", "PD2")]
    [InlineData("ATmega328P", "D13", "PB5")]
    [InlineData("ATmega328P", "A5", "PC5")]
    [InlineData("ATmega328P", "13", "PB5")]
    public void A_pin_is_found_by_what_stands_beside_it(string chip, string header, string name)
    {
        var controller = Controllers.All.Single(one => one.Name == chip);
        Assert.Equal(name, controller.Find(header)!.Pin.Name);
        Assert.Same(controller.Find(header), controller.Find(name));
    }

    [Theory]
    [InlineData("ATmega2560", 70, 16, 11)]
    [InlineData("ATmega328P", 20, 6, 2)]
    [InlineData("ATmega32U4", 20, 12, 4)]
    public void A_chip_has_so_many_pins_analog_inputs_and_fine_dimmers(string chip, int pins, int analog, int fine)
    {
        var controller = Controllers.All.Single(one => one.Name == chip);
        Assert.Equal(pins, controller.Pins.Length);
        Assert.Equal(pins, controller.Pins.DistinctBy(pin => pin.Pin.Name).Count());
        Assert.Equal(analog, controller.Pins.Count(pin => pin.AnalogChannel is not null));
        Assert.Equal(fine, controller.Pins.Count(pin => pin.IsFineTimer && !pin.HasLamp));
        Assert.Equal(["D0", "D1"], controller.Pins.Where(pin => pin.IsLink).Select(pin => pin.Pin.Header));
        Assert.Equal("D13", Assert.Single(controller.Pins, pin => pin.HasLamp).Pin.Header);

        // Every pin has its limit, and one only.
        Assert.All(controller.Pins, pin => Assert.Single(controller.Groups, group => group.Pins.Contains(pin.Pin)));
    }

    /// <summary>The numbers of timers on the pins that the public table calls PWM: D2 to D13 and D44 to D46; D3 5 6 9 10 11; D3 5 6 9 10 11 13.</summary>
    [Theory]
    [InlineData("ATmega2560", "D2 D3 D4 D5 D6 D7 D8 D9 D10 D11 D12 D13 D44 D45 D46")]
    [InlineData("ATmega328P", "D3 D5 D6 D9 D10 D11")]
    [InlineData("ATmega32U4", "D3 D5 D6 D9 D10 D11 D13")]
    public void Timers_drive_the_pins_of_the_public_table(string chip, string pins) =>
        Assert.Equal(pins, string.Join(' ', Controllers.All.Single(one => one.Name == chip).Pins.Where(pin => pin.Timer is not null).Select(pin => pin.Pin.Header)));
}
