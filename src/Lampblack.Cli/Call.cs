using System;
using System.CommandLine;
using System.Threading;
using System.Threading.Tasks;
using Lampblack.Host;

namespace Lampblack.Cli;

/// <summary>One call of a command, from its parsed arguments to its exit code.</summary>
/// <param name="Parsed">The arguments.</param>
/// <param name="Terminal">What the maker sees.</param>
/// <param name="IsJson">Whether a machine reads the answer.</param>
/// <param name="Cancellation">Cancelled by Ctrl-C.</param>
internal sealed record Call(ParseResult Parsed, Terminal Terminal, bool IsJson, CancellationToken Cancellation)
{
    /// <summary>Gives a command its work, and every way of ending its exit code.</summary>
    /// <param name="command">The command.</param>
    /// <param name="work">Does the work and returns the exit code.</param>
    /// <param name="json">The command's <c>--json</c>, if it has one.</param>
    /// <param name="schema">The schema of its answer.</param>
    internal static void Bind(Command command, Func<Call, int> work, Option<bool>? json = null, string schema = "")
    {
        command.SetAction(parsed =>
        {
            using Interruption interruption = new();
            Terminal terminal = Terminal.Here(
                parsed.GetValue(GlobalOptions.Quiet), parsed.GetValue(GlobalOptions.Verbose), parsed.GetValue(GlobalOptions.NoColour));
            bool isJson = json is not null && parsed.GetValue(json);
            return Guard(new(parsed, terminal, isJson, interruption.Token), command.Name, schema, work);
        });
    }

    /// <summary>Does the work and turns every exception into a sentence and an exit code.</summary>
    /// <param name="call">The call.</param>
    /// <param name="command">The command's name, for a crash report.</param>
    /// <param name="schema">The schema of a machine's answer.</param>
    /// <param name="work">Does the work.</param>
    internal static int Guard(Call call, string command, string schema, Func<Call, int> work)
    {
        try
        {
            return work(call);
        }
        catch (FileProblemException problem)
        {
            return call.Fail(ExitCodes.FileProblem, schema, problem.Message);
        }
        catch (OperationCanceledException) when (call.Cancellation.IsCancellationRequested)
        {
            return call.Fail(ExitCodes.Interrupted, schema, "Stopped. No half-written file was left.");
        }
        catch (Exception fault)
        {
            string? report = CrashReport.Write(
                UserFolder.Locate(Environment.GetEnvironmentVariable), Program.Version, command, fault, DateTimeOffset.Now);
            string where = report is null
                ? "A report could not be written either."
                : $"A report is in {report}; it holds no part of your desk. Please send it in with a few words on what you did.";
            return call.Fail(ExitCodes.OurFault, schema, $"Lampblack made a mistake ({fault.GetType().Name}); this is not your desk's fault. {where}");
        }
    }

    /// <summary>Does work that can be left alone when the maker stops it: it holds nothing but memory.</summary>
    /// <typeparam name="T">What the work gives.</typeparam>
    /// <param name="work">The work.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    internal T Await<T>(Func<T> work) => Task.Run(work, CancellationToken.None).WaitAsync(Cancellation).GetAwaiter().GetResult();

    private int Fail(int exit, string schema, string message)
    {
        if (IsJson)
        {
            JsonAnswer.Print(schema, exit, writer =>
            {
                writer.WriteString("error", message);
                JsonAnswer.WriteFindings(writer, []);
            });
        }

        Terminal.Complain(message);
        return exit;
    }
}
