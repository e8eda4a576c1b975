using System.CommandLine;
using Lampblack.Host;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack rollcall PORT DESK</c>: has every control of a panel answer, and says what to resolder.</summary>
internal static class RollCallCommand
{
    /// <summary>Name and version of the answer for machines, and of the record.</summary>
    private const string Schema = "lampblack-rollcall/1";

    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string?> port = PanelArguments.Port();
        Option<string?> desk = new("--desk") { Description = $"The desk: a .toml file, or a folder that holds {OpenedDesk.UsualName} (the current folder)" };
        Argument<string?> deskToo = new("DESK") { Description = "The same as --desk", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> plan = PanelArguments.Plan();
        Option<string[]> only = new("--only") { Description = "Call only these: a control's id, \"panel/\" for a whole panel, \"row 2\", \"column 1\"; the rest may be unwired still", HelpName = "WHOM" };
        Option<string?> record = new("--record") { Description = "Keep the record in this file (JSON); controls that answered in it are not called again", HelpName = "FILE" };
        Option<bool> simulate = PanelArguments.Simulate();
        Option<string[]> faults = PanelArguments.Faults();
        Option<bool> json = new("--json") { Description = $"One JSON object for machines at the end ({Schema}); questions go to the error output" };
        Command command = new("rollcall", "Call the roll: every control answers in every position, or it is said what to resolder. Enter is 'done'; n no, o another one, a again, s skip, q stop.")
        {
            port, deskToo, desk, plan, only, record, simulate, faults, json,
        };
        HelpWithExamples.Add(command, "lampblack rollcall /dev/ttyACM0 my-desk", "lampblack rollcall /dev/ttyACM0 my-desk --only \"row 2\"", "lampblack rollcall COM3 my-desk --record roll.json");
        Call.Bind(
            command,
            call =>
            {
                (string at, string? named) = PanelArguments.PortAndDesk(call, port, deskToo, desk, isPortNeeded: !call.Parsed.GetValue(simulate));
                return RollCallRun.Run(
                    call,
                    new(
                        at,
                        named,
                        call.Parsed.GetValue(plan),
                        call.Parsed.GetValue(only) ?? [],
                        call.Parsed.GetValue(record),
                        call.Parsed.GetValue(simulate),
                        call.Parsed.GetValue(faults) ?? [],
                        Schema));
            },
            json,
            Schema);
        return command;
    }
}

/// <summary>What was asked of <c>rollcall</c>.</summary>
/// <param name="Port">The port's name.</param>
/// <param name="Desk">The desk; null for the current folder.</param>
/// <param name="Plan">A file of pins.</param>
/// <param name="Only">Who is called.</param>
/// <param name="Record">The record's file.</param>
/// <param name="Simulate">Whether the panel is simulated.</param>
/// <param name="Faults">What is wrong with the simulated panel.</param>
/// <param name="Schema">Name and version of the answer.</param>
internal sealed record RollCallAsked(string Port, string? Desk, string? Plan, string[] Only, string? Record, bool Simulate, string[] Faults, string Schema);
