using System;
using System.Collections.Immutable;
using System.CommandLine;
using System.IO;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack flash PORT DESK</c>: writes a desk's firmware into its controller.</summary>
internal static class FlashCommand
{
    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string?> port = PanelArguments.Port();
        Argument<string?> desk = new("DESK") { Description = $"The desk: a .toml file, or a folder that holds {OpenedDesk.UsualName} (the current folder)", Arity = ArgumentArity.ZeroOrOne };
        Option<string?> deskToo = new("--desk") { Description = "The same as DESK" };
        Option<string?> plan = PanelArguments.Plan();
        Option<string?> controller = new("--controller") { Description = "Which of the desk's controllers, from 1 (1)", HelpName = "NUMBER" };
        Option<bool> print = new("--print") { Description = "Write nothing; print the line for avrdude that does the same with the HEX file of the last build" };
        Command command = new("flash", "Write the desk's firmware into its controller through the chip's boot loader: the chip is asked what it is first, the boot loader is never written, all is read back. Nothing has to be compiled.")
        {
            port, desk, deskToo, plan, controller, print,
        };
        HelpWithExamples.Add(command, "lampblack flash my-desk", "lampblack flash /dev/ttyACM0 my-desk", "lampblack flash COM3 my-desk", "lampblack flash /dev/ttyACM0 my-desk --print");
        Call.Bind(
            command,
            call =>
            {
                bool isPrinted = call.Parsed.GetValue(print);
                (string at, string? named) = PanelArguments.PortAndDesk(call, port, desk, deskToo, isPortNeeded: !isPrinted);
                int which = call.Parsed.GetValue(controller) is { } written ? (int)Math.Clamp(WrittenNumbers.One(written) ?? 0, 0, 1000) : 1;
                return Run(call, at, named, call.Parsed.GetValue(plan), which, isPrinted);
            });
        return command;
    }

    private static int Run(Call call, string port, string? asked, string? plan, int controller, bool isPrinted)
    {
        (DeskSource? desk, ImmutableArray<byte> pins) = PanelArguments.Read(call, asked, plan);
        Checked<Flashing?> begun = Flash.Begin(desk, pins, plan ?? string.Empty, controller, call.Cancellation);
        PanelArguments.Complain(call, begun.Findings);
        if (begun.Value is not { } flashing)
        {
            return ExitCodes.Stopped;
        }

        if (isPrinted)
        {
            string folder = desk is null ? "out" : call.Await(() => OpenedDesk.Open(asked ?? ".")).UsualOutput;
            string file = Path.Combine(folder, flashing.Path);
            if (!File.Exists(file))
            {
                throw new FileProblemException($"{ShownPath.Of(file)} is not there: nothing was built yet. 'lampblack build{(asked is null ? string.Empty : $" {asked}")}' writes it; then print the line again.");
            }

            call.Terminal.Insist(flashing.AvrdudeLine(port.Length > 0 ? port : "PORT", file));
            return ExitCodes.Fine;
        }

        if (flashing.NeedsReset)
        {
            call.Terminal.Complain($"Press the board's reset, on some boards twice within a second: for some 8 seconds the {flashing.Chip} then listens, often at a port of another name.");
        }

        PanelLine line = new(port, flashing);
        line.Missing = reason => call.Terminal.Complain($"{port}: {reason}. Waiting for it; Ctrl-C ends.");
        using (ProgressLine progress = new(call.Terminal))
        {
            line.After = () => progress.Report(FormattableString.Invariant($"writing and reading back: {100 * flashing.DoneShare:0} %"));
            line.Run(call.Cancellation);
        }

        if (flashing.Fault is { } fault)
        {
            PanelArguments.Complain(call, [fault]);
            return ExitCodes.Stopped;
        }

        if (!flashing.IsDone)
        {
            return ExitCodes.Interrupted;
        }

        call.Terminal.Say($"Written and read back. Next: 'lampblack rollcall {port}{(asked is null ? string.Empty : $" {asked}")}'.");
        return ExitCodes.Fine;
    }
}
