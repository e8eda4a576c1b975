using System.CommandLine;
using Lampblack.Host;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack listen PORT</c>: tells what a panel's controls do, one JSON object a line, and hands it on.</summary>
internal static class ListenCommand
{
    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string?> port = PanelArguments.Port();
        Option<string?> desk = new("--desk") { Description = $"The desk: a .toml file, or a folder that holds {OpenedDesk.UsualName} (the current folder)" };
        Option<string?> plan = PanelArguments.Plan();
        Option<string?> osc = new("--osc") { Description = "Send everything there as Open Sound Control, by UDP", HelpName = "HOST:PORT" };
        Option<string?> mqtt = new("--mqtt") { Description = $"Publish everything at this broker under {MqttOutlet.Root}ID, and take levels from {MqttOutlet.Root}ID/set (port 1883)", HelpName = "HOST[:PORT]" };
        Option<string?> password = new("--mqtt-password-file")
        {
            Description = $"A file whose first line is the broker's password; else {MqttLogin.PasswordVariable}. The user stands in {MqttLogin.UserVariable}",
            HelpName = "FILE",
        };
        Option<bool> joystick = new("--joystick") { Description = "Play a game controller to the other programs of this machine (Linux)" };
        Option<bool> simulate = PanelArguments.Simulate();
        Option<string[]> faults = PanelArguments.Faults();
        Option<bool> keyboard = new("--keyboard") { Description = "Play a keyboard with keys F13 and on to the other programs of this machine (Linux)" };
        Command command = new("listen", "Tell what a panel's controls do, one JSON object a line; a line {\"set\": ID, \"level\": 0..1} typed in sets a lamp. Runs until Ctrl-C, through unplugging too.")
        {
            port, desk, plan, osc, mqtt, password, joystick, keyboard, simulate, faults,
        };
        foreach (Option<string?> place in (Option<string?>[])[osc, mqtt])
        {
            int usual = place == mqtt ? 1883 : 0;
            place.Validators.Add(result =>
            {
                if (result.Tokens.Count == 1 && NetworkPlace.TryRead(result.Tokens[0].Value, usual) is null)
                {
                    result.AddError($"{place.Name} takes {place.HelpName}, found '{result.Tokens[0].Value}'.");
                }
            });
        }

        HelpWithExamples.Add(command, "lampblack listen /dev/ttyACM0 --desk my-desk", "lampblack listen /dev/ttyACM0 --osc 127.0.0.1:9000", "lampblack listen COM3 --mqtt broker.local", "lampblack listen /dev/ttyACM0 --joystick");
        Call.Bind(
            command,
            call => ListenRun.Run(
                call,
                new(
                    PanelArguments.PortOf(call, port, call.Parsed.GetValue(simulate)),
                    call.Parsed.GetValue(desk),
                    call.Parsed.GetValue(plan),
                    Place(call.Parsed.GetValue(osc), 0),
                    Place(call.Parsed.GetValue(mqtt), 1883),
                    call.Parsed.GetValue(password),
                    call.Parsed.GetValue(joystick),
                    call.Parsed.GetValue(keyboard),
                    call.Parsed.GetValue(simulate),
                    call.Parsed.GetValue(faults) ?? [])));
        return command;
    }

    private static NetworkPlace? Place(string? text, int usualPort) => text is null ? null : NetworkPlace.TryRead(text, usualPort);
}

/// <summary>What was asked of <c>listen</c>.</summary>
/// <param name="Port">The port's name.</param>
/// <param name="Desk">The desk; null for the current folder.</param>
/// <param name="Plan">A file of pins.</param>
/// <param name="Osc">Where messages go.</param>
/// <param name="Mqtt">The broker.</param>
/// <param name="PasswordFile">The broker's password.</param>
/// <param name="Joystick">Whether a game controller is played.</param>
/// <param name="Keyboard">Whether a keyboard is played.</param>
/// <param name="Simulate">Whether the panel is simulated.</param>
/// <param name="Faults">What is wrong with the simulated panel.</param>
internal sealed record ListenAsked(string Port, string? Desk, string? Plan, NetworkPlace? Osc, NetworkPlace? Mqtt, string? PasswordFile, bool Joystick, bool Keyboard, bool Simulate, string[] Faults);
