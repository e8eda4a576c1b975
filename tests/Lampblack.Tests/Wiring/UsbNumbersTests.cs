using System;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using Lampblack.Findings;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Wiring;

/// <summary>The panel as a game controller: whose numbers it has, and which control is which axis and button.</summary>
public sealed class UsbNumbersTests
{
    private const string Numbers = "usb-vendor = 0x1234\nusb-product = 0xABCD\n";

    private static readonly string Items = WiredDesk.Many("toggle-mini-on-on", 2, "points") + WiredDesk.Many("pot-9mm", 2, "dew", left: 200) + WiredDesk.Many("encoder-m7", 1, "focus", left: 400);

    [Fact]
    public void A_chip_without_numbers_is_told_what_it_could_be()
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(Items, "ATmega32U4"));
        var finding = Assert.Single(findings, finding => finding.Code == "usb-numbers-missing");
        Assert.Equal(Severity.Note, finding.Severity);
        Assert.Contains("none is free to use", finding.Message, StringComparison.Ordinal);
        Assert.Null(plan.Controllers[0].Usb);
    }

    [Theory]
    [InlineData("usb-vendor = 0x1234")]
    [InlineData("usb-product = 1")]
    [InlineData("usb-encoders = \"buttons\"")]
    public void Half_of_what_is_needed_is_a_warning(string controller)
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(Items, "ATmega32U4", controller));
        Assert.Equal(Severity.Warn, Assert.Single(findings, finding => finding.Code == "usb-numbers-missing").Severity);
        Assert.Null(plan.Controllers[0].Usb);
    }

    [Fact]
    public void With_both_numbers_it_is_one_and_nothing_is_said()
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(Items, "ATmega32U4", Numbers + "usb-encoders = \"buttons\""));
        Assert.DoesNotContain(findings, finding => finding.Code.StartsWith("usb-", StringComparison.Ordinal));
        Assert.Equal(new(0x1234, 0xABCD, true), plan.Controllers[0].Usb);
    }

    [Theory]
    [InlineData("usb-vendor = 0", "value-range")]
    [InlineData("usb-product = 65536", "value-range")]
    public void Numbers_have_two_bytes_and_are_not_0(string controller, string code) =>
        Assert.Contains(Read(WiredDesk.Toml(Items, "ATmega32U4", controller)).Findings, finding => finding.Code == code && finding.Severity == Severity.Stop);

    [Fact]
    public void Another_chip_has_no_use_for_them()
    {
        var findings = Read(WiredDesk.Toml(Items, "ATmega2560", Numbers)).Findings;
        Assert.Equal(2, findings.Count(finding => finding.Code == "key-unused"));
        Assert.DoesNotContain(WiredDesk.Planned(WiredDesk.Toml(Items)).Findings, finding => finding.Code == "usb-numbers-missing");
    }

    /// <summary>Written by hand from docs/usb.md: contacts in their order, then the encoder's two ways; knobs are the first axes.</summary>
    [Fact]
    public void The_list_names_every_axis_and_button()
    {
        var plan = WiredDesk.Planned(WiredDesk.Toml(Items, "ATmega32U4", Numbers + "usb-encoders = \"buttons\"")).Plan;
        var lines = Encoding.UTF8.GetString(UsbNumbers.Table(plan).AsSpan()).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        var contacts = plan.Controllers[0].Contacts.Length;
        Assert.Equal(1 + 2 + contacts + 2, lines.Length);
        Assert.Contains(lines, line => line.StartsWith("1,axis X,", StringComparison.Ordinal) && line.EndsWith("dew1,its travel", StringComparison.Ordinal));
        Assert.Contains(lines, line => line.StartsWith("1,button 1,", StringComparison.Ordinal) && line.Contains("points1", StringComparison.Ordinal));
        Assert.EndsWith("a click counter-clockwise", lines[^1], StringComparison.Ordinal);
        Assert.Contains($"button {contacts + 2}", lines[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void An_encoder_that_strikes_no_buttons_is_the_axis_after_the_knobs()
    {
        var plan = WiredDesk.Planned(WiredDesk.Toml(Items, "ATmega32U4", Numbers)).Plan;
        Assert.Equal(
            ["axis 0 p/dew1", "axis 1 p/dew2", "axis 2 p/focus1", "button 0 p/points1", "button 1 p/points2"],
            UsbNumbers.Of(plan, plan.Controllers[0]).Select(one => $"{(one.IsAxis ? "axis" : "button")} {one.Number} {one.ItemId}"));
    }

    [Fact]
    public void More_than_the_report_holds_is_told()
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("toggle-mini-on-on", 130, "points"), "ATmega32U4", Numbers));
        var finding = Assert.Single(findings, finding => finding.Code == "usb-room");
        Assert.Contains("128 buttons; 2 of its controls have none", finding.Message, StringComparison.Ordinal);
        Assert.Equal(128, UsbNumbers.Of(plan, plan.Controllers[0]).Count(UsbNumbers.IsSent));
    }

    private static Checked<Desk> Read(string toml) => DeskReader.Read("desk.toml", Encoding.UTF8.GetBytes(toml));
}
