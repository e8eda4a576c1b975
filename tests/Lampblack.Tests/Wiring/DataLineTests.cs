using System;
using System.Linq;
using Lampblack.Jobs;
using Lampblack.Tests.Books;
using Lampblack.Tests.Checks;
using Lampblack.Wiring;
using Xunit;

namespace Lampblack.Tests.Wiring;

/// <summary>Displays and pixels: their data lines get pins, wires and places, and the finding says in one sentence that nothing drives them.</summary>
public sealed class DataLineTests
{
    /// <summary>Two-wire displays get the chip's own pins, by its data sheet: SDA and SCL of the ATmega2560 are PD1 and PD0, of the ATmega328P PC4 and PC5, of the ATmega32U4 PD1 and PD0 (from memory).</summary>
    [Theory]
    [InlineData("ATmega2560", "PD1", "PD0")]
    [InlineData("ATmega328P", "PC4", "PC5")]
    [InlineData("ATmega32U4", "PD1", "PD0")]
    public void A_graphic_display_gets_the_pins_of_the_chips_own_two_wires(string chip, string data, string clock)
    {
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(CheckedDesk.Control("display-0-96-in", 100, 100, "id = \"level\"") + WiredDesk.Many("toggle-mini-on-on", 4, top: 500), chip));
        var one = Assert.Single(plan.Controllers);
        Assert.Equal([("p/level", "SDA", data), ("p/level", "SCL", clock)], one.DataLines.Select(line => (line.ItemId, line.Terminal, line.Pin.Name)));
        var finding = Assert.Single(findings, finding => finding.Code == "part-not-driven");
        Assert.Contains("our engine has no code for `display-0-96-in`", finding.Message, StringComparison.Ordinal);
        Assert.Contains(one.DataLines[0].Pin.Header, finding.Message, StringComparison.Ordinal);
        Assert.All(plan.Controls, control => Assert.NotEqual(WiredKind.Data, control.Kind));
        Assert.Equal(PinPlanTests.Pins(one).Count() + 2, PinPlanTests.Pins(one).Concat(one.DataLines.Select(line => line.Pin)).Select(pin => pin.Name).Distinct().Count());
    }

    [Fact]
    public void A_character_display_gets_six_lines()
    {
        var (plan, _, _) = WiredDesk.Planned(WiredDesk.Toml(CheckedDesk.Control("display-16x2", 100, 100)));
        Assert.Equal(["RS", "E", "D4", "D5", "D6", "D7"], Assert.Single(plan.Controllers).DataLines.Select(line => line.Terminal));
    }

    /// <summary>One pin for a chain of pixels: a wire with a resistor to the first, and one from each to the next.</summary>
    [Fact]
    public void Pixels_are_a_chain_from_one_pin()
    {
        var laid = CheckedDesk.Laid(WiredDesk.Toml(WiredDesk.Many("lamp-12mm-pixel", 3, "p")));
        var needs = WiringNeeds.Of(laid).Value;
        var plan = PinPlanning.Of(needs, [], laid.Desk.Controller!);
        var line = Assert.Single(Assert.Single(plan.Value.Controllers).DataLines);
        Assert.Single(plan.Findings, finding => finding.Code == "part-not-driven");
        var wires = WirePlanning.Of(laid, WireNets.Of(plan.Value, needs, 0.01), laid.Desk.Controller!, [], [], TestContext.Current.CancellationToken).Panels[0];
        var contact = Assert.Single(wires.Plug!.Contacts);
        Assert.Equal(line.Pin.Header, contact.ControllerEnd);
        Assert.Equal(
            [("J1", "1", "p1", "DI", 330.0), ("p1", "DO", "p2", "DI", 0.0), ("p2", "DO", "p3", "DI", 0.0)],
            wires.Wires.Select(wire => (Last(wire.From.Item), wire.From.Terminal, Last(wire.To.Item), wire.To.Terminal, wire.To.InlineOhms)));

        // Pixels stand 30 mm apart, and DO and DI of one part some mm: the wire between two spans that, and the slack.
        Assert.All(wires.Wires.Skip(1), wire => Assert.InRange(wire.LengthMm - laid.Desk.Controller!.SlackMm, 20, 60));
    }

    /// <summary>A data line is the last thing to take a register or a second controller for: it gets what is free, or nothing.</summary>
    [Fact]
    public void Where_no_pin_is_left_the_note_says_so_and_nothing_else_changes()
    {
        var items = WiredDesk.Many("pot-9mm", 6, "k", top: 500) + WiredDesk.Many("encoder-m7", 6, "e", top: 300);
        var (without, _, _) = WiredDesk.Planned(WiredDesk.Toml(items, "ATmega328P", "reserved = [\"D13\"]"));
        var (plan, findings, _) = WiredDesk.Planned(WiredDesk.Toml(items + CheckedDesk.Control("display-16x2", 500, 600), "ATmega328P", "reserved = [\"D13\"]"));
        Assert.Equal(WiredDesk.Wires(without), WiredDesk.Wires(plan));
        Assert.Empty(plan.Controllers.SelectMany(one => one.DataLines));
        Assert.Contains("no pin is left", Assert.Single(findings, finding => finding.Code == "part-not-planned").Message, StringComparison.Ordinal);
    }

    /// <summary>The next build keeps it, whatever was added before it.</summary>
    [Fact]
    public void A_pin_of_a_data_line_is_kept_and_read_back()
    {
        var pixel = CheckedDesk.Control("lamp-12mm-pixel", 500, 500, "id = \"glow\"");
        var (plan, _, _) = WiredDesk.Planned(WiredDesk.Toml(pixel + WiredDesk.Many("toggle-mini-on-on", 2, top: 300)));
        var read = WiringPlanFile.Read(WiringPlanFile.Written(plan)).Value!;
        Assert.Equal(plan.Controllers[0].DataLines, read.Controllers[0].DataLines);
        var (next, _, _) = WiredDesk.Planned(WiredDesk.Toml(WiredDesk.Many("encoder-m7", 2, "e", top: 700) + pixel + WiredDesk.Many("toggle-mini-on-on", 6, top: 300)), read);
        Assert.Equal(plan.Controllers[0].DataLines, next.Controllers[0].DataLines);
        Assert.DoesNotContain(next.Controllers[0].DataLines[0].Pin, PinPlanTests.Pins(next.Controllers[0]));
    }

    /// <summary>A strip of pixels behind a panel, and pixels on it: plan, wire list and book have the pins, and all drawings are made.</summary>
    [Fact]
    public void A_strip_of_pixels_gets_a_pin_in_plan_wire_list_and_book()
    {
        var text = string.Join('\n', SmallDesk.Text().Replace("emitter-5mm-wide", "pixels-60", StringComparison.Ordinal).Split('\n')
            .Where(line => !line.Contains("panel.emitter", StringComparison.Ordinal) && !line.Contains("at = [45, 20]", StringComparison.Ordinal) && !line.Contains("at = [76, 52]", StringComparison.Ordinal)));
        text += "\n\n  [[panel.control]]\n  id = \"glow\"\n  part = \"lamp-12mm-pixel\"\n  at = [46, 56]\n\n  [[panel.control]]\n  id = \"glow-2\"\n  part = \"lamp-12mm-pixel\"\n  at = [76, 56]\n";
        var result = SmallDesk.Build(text, parts: BuildParts.All);
        Assert.DoesNotContain(result.Findings, finding => finding.Severity == Lampblack.Findings.Severity.Stop);
        var one = Assert.Single(WiringPlanFile.Read(result.Files.Single(file => file.Path == WiringPlanFile.Path).Bytes).Value!.Controllers);
        Assert.Equal(["DI", "data"], one.DataLines.Select(line => line.Terminal).Order(StringComparer.Ordinal));
        Assert.Equal(2, result.Findings.Count(finding => finding.Code == "part-not-driven"));
        var strip = one.DataLines.Single(line => line.Terminal == "data").Pin.Header;
        var rows = ExampleBooks.Rows(result.MadeBook!.Book, "lamp-wire").SelectMany(row => row.Cells.Select(ExampleBooks.Plain)).ToList();
        Assert.Contains(rows, cell => cell == strip);
        Assert.DoesNotContain(rows, cell => cell.Contains("no pin is planned", StringComparison.Ordinal));
        var wires = Words(result, "wiring/wires.csv");
        Assert.Contains("DO", wires, StringComparison.Ordinal);
        Assert.Contains("P1", wires, StringComparison.Ordinal);
    }

    /// <summary>A display or pixel of one's own has the data lines of the part it is like.</summary>
    [Fact]
    public void A_part_of_one_s_own_has_the_lines_of_the_part_it_is_like()
    {
        const string Own = "[[part]]\nid = \"board-clock\"\nlike = \"display-20x4\"\n[[part]]\nid = \"glow-13\"\nlike = \"lamp-12mm-pixel\"\nhole = 12.5\n";
        var (plan, findings, needs) = WiredDesk.Planned(WiredDesk.Toml(CheckedDesk.Control("board-clock", 100, 100) + WiredDesk.Many("glow-13", 2, "g", top: 500)) + Own);
        Assert.Equal(["RS", "E", "D4", "D5", "D6", "D7", "DI"], Assert.Single(plan.Controllers).DataLines.Select(line => line.Terminal));
        Assert.Equal([null, null, "p/g1"], needs.Select(need => need.DataFrom));
        Assert.Empty(plan.Controls);
        Assert.Equal(2, findings.Count(finding => finding.Code == "part-not-driven"));
    }

    /// <summary>Controls come first; but a wire that is soldered and no longer right is told of.</summary>
    [Fact]
    public void A_soldered_data_pin_that_a_new_contact_takes_is_told()
    {
        var controls = WiredDesk.Many("pot-9mm", 6, "k", top: 500) + WiredDesk.Many("encoder-m7", 5, "e", top: 300);
        var items = controls + CheckedDesk.Control("lamp-12mm-pixel", 500, 600, "id = \"glow\"");
        const string Full = "reserved = [\"D13\"]";
        var (before, none, _) = WiredDesk.Planned(WiredDesk.Toml(items, "ATmega328P", Full));
        var pin = Assert.Single(Assert.Single(before.Controllers).DataLines).Pin;
        Assert.DoesNotContain(none, finding => finding.Code == "wiring-made-anew");
        var more = CheckedDesk.Control("toggle-mini-on-on", 600, 600, "id = \"new\"");
        var (after, findings, _) = WiredDesk.Planned(WiredDesk.Toml(items + more, "ATmega328P", Full), before);
        Assert.Empty(after.Controllers.SelectMany(one => one.DataLines));
        Assert.Contains(pin, PinPlanTests.Pins(after.Controllers[0]));
        Assert.Empty(WiredDesk.Wires(before).Except(WiredDesk.Wires(after)));
        var told = Assert.Single(findings, finding => finding.Code == "wiring-made-anew");
        Assert.Contains(pin.Header, told.Message, StringComparison.Ordinal);
        Assert.Equal("p/glow", told.Item);

        // Whoever takes the pixel out of the desk file knows that its wire goes.
        Assert.DoesNotContain(WiredDesk.Planned(WiredDesk.Toml(controls + more, "ATmega328P", Full), before).Findings, finding => finding.Code == "wiring-made-anew");
    }

    /// <summary>Every data line is held between its pin and its tag, with the resistor that lies between, and every wire from pixel to pixel between its tags.</summary>
    [Fact]
    public void The_meter_is_held_to_every_data_wire()
    {
        var laid = CheckedDesk.Laid(WiredDesk.Toml(WiredDesk.Many("lamp-12mm-pixel", 3, "x") + CheckedDesk.Control("display-0-96-in", 500, 500, "id = \"log\"")));
        var needs = WiringNeeds.Of(laid).Value;
        var plan = PinPlanning.Of(needs, [], laid.Desk.Controller!).Value;
        var nets = WireNets.Of(plan, needs, 0.01);
        var tests = ContinuityTests.Of(plan, needs, nets);
        string Pin(string terminal) => plan.Controllers[0].DataLines.Single(line => line.Terminal == terminal).Pin.Header;
        Assert.Equal(
            [(Pin("DI"), "tag DI of x1"), ("tag DO of x1", "tag DI of x2"), ("tag DO of x2", "tag DI of x3"), (Pin("SDA"), "tag SDA of log"), (Pin("SCL"), "tag SCL of log")],
            tests.Select(test => (test.Red, test.Black)));
        Assert.StartsWith("ohms: 330", tests[0].Expect, StringComparison.Ordinal);
        Assert.All(tests.Skip(1), test => Assert.StartsWith("beep", test.Expect, StringComparison.Ordinal));

        // As many as there are nets: none is left out.
        Assert.Equal(nets.Nets.Length, tests.Length);
        Assert.Contains("P1", tests[1].Expect, StringComparison.Ordinal);
    }

    /// <summary>What can be written in the desk file is hinted, and nothing else: a strip has no `wired`. In the workshop's list every row says where its wire goes.</summary>
    [Fact]
    public void A_strip_is_told_what_holds_for_it()
    {
        var text = string.Join('\n', SmallDesk.Text().Replace("emitter-5mm-wide", "pixels-60", StringComparison.Ordinal).Split('\n')
            .Where(line => !line.Contains("panel.emitter", StringComparison.Ordinal) && !line.Contains("at = [45, 20]", StringComparison.Ordinal) && !line.Contains("at = [76, 52]", StringComparison.Ordinal)))
            + "\n\n  [[panel.control]]\n  id = \"glow\"\n  part = \"lamp-12mm-pixel\"\n  at = [46, 56]\n";
        var view = DeskView.Of(Lampblack.Tests.Suites.ExampleDesks.Alone(System.Text.Encoding.UTF8.GetBytes(text)), new("A4", "option", Parts: BuildParts.None))
            .Wiring([], new Progress<string>(), TestContext.Current.CancellationToken, TestContext.Current.CancellationToken);
        var findings = view.Findings.Where(finding => finding.Code == "part-not-driven").ToLookup(finding => finding.Item is null);
        Assert.DoesNotContain("wired = false", Assert.Single(findings[true]).Hint, StringComparison.Ordinal);
        Assert.Contains("wired = false", Assert.Single(findings[false]).Hint, StringComparison.Ordinal);
        Assert.All(view.Pins.Rows, row => Assert.All(row.Cells, cell => Assert.NotEmpty(cell)));
        Assert.Single(view.Pins.Rows, row => row.Cells[1].StartsWith("data, from its ", StringComparison.Ordinal));
    }

    private static string Words(BuildResult result, string path) => System.Text.Encoding.UTF8.GetString(result.Files.Single(file => file.Path == path).Bytes.AsSpan());

    private static string Last(string item) => item.Split('/')[^1];
}
