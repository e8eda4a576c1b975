using System.CommandLine;

namespace Lampblack.Cli.Commands;

/// <summary><c>lampblack completion SHELL</c>: a script that lets a shell complete commands and options.</summary>
internal static class CompletionCommand
{
    /// <summary>The command.</summary>
    internal static Command Create()
    {
        Argument<string> shell = new("SHELL") { Description = "The shell: bash, zsh, fish or pwsh" };
        shell.AcceptOnlyFromAmong("bash", "zsh", "fish", "pwsh");
        Command command = new("completion", "Print a script that lets your shell complete commands, options and their values.") { shell };
        HelpWithExamples.Add(command, "source <(lampblack completion bash)", "lampblack completion fish | source");
        Call.Bind(command, call =>
        {
            call.Terminal.Insist(CompletionScripts.For(call.Parsed.GetRequiredValue(shell)));
            return ExitCodes.Fine;
        });
        return command;
    }
}
