using System;
using System.CommandLine;
using System.IO;
using System.Linq;
using System.Threading;
using Lampblack.Cli;
using Lampblack.Findings;
using Lampblack.Host;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>How a command ends, whatever happens in it, and how findings look.</summary>
public sealed class EndingsTests
{
    [Fact]
    public void A_fault_of_ours_is_exit_code_4_with_a_report_that_holds_no_part_of_the_desk()
    {
        using WorkFolder work = new();
        Environment.SetEnvironmentVariable(UserFolder.Variable, work.Full);
        (int exit, string error) = End(_ => throw new InvalidOperationException("legend 'SHUTTER'"), CancellationToken.None);
        Environment.SetEnvironmentVariable(UserFolder.Variable, null);
        Assert.Equal(4, exit);
        string report = Directory.GetFiles(work.Full, "crash-*.txt").Single();
        Assert.Contains(report, error, StringComparison.Ordinal);
        Assert.DoesNotContain("SHUTTER", error + File.ReadAllText(report), StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_problem_is_exit_code_3_with_its_sentence()
    {
        Assert.Equal((3, "The disk is full.\n"), End(_ => throw new FileProblemException("The disk is full."), CancellationToken.None));
    }

    [Fact]
    public void Work_that_does_not_listen_is_left_alone_when_stopped()
    {
        using CancellationTokenSource source = new();
        using ManualResetEventSlim never = new();
        source.CancelAfter(50);
        (int exit, string error) = End(
            call => call.Await(() =>
            {
                never.Wait(TimeSpan.FromSeconds(30), CancellationToken.None);
                return 0;
            }),
            source.Token);
        never.Set();
        Assert.Equal(130, exit);
        Assert.StartsWith("Stopped", error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cancellation_that_nobody_asked_for_is_our_fault_and_not_a_stop()
    {
        using WorkFolder work = new();
        Environment.SetEnvironmentVariable(UserFolder.Variable, work.Full);
        int exit = End(_ => throw new OperationCanceledException(), CancellationToken.None).Exit;
        Environment.SetEnvironmentVariable(UserFolder.Variable, null);
        Assert.Equal(4, exit);
    }

    [Fact]
    public void Findings_are_printed_as_compilers_do_with_the_hint_below()
    {
        Finding finding = Finding.Warn("key-unknown", "there is no key 'legnd'\nhere", "Did you mean 'legend'?", new("desk.toml", 100, 5, 12, 5));
        Assert.Equal(
            $"{Path.Combine("yard", "desk.toml")}(12,5): warn key-unknown: there is no key 'legnd' here\n    Did you mean 'legend'?\n",
            Printed(finding, isQuiet: false, hasColour: false));
    }

    [Theory]
    [InlineData(Severity.Stop, "\u001b[1;31mstop\u001b[0m")]
    [InlineData(Severity.Warn, "\u001b[33mwarn\u001b[0m")]
    [InlineData(Severity.Note, "\u001b[36mnote\u001b[0m")]
    public void Colour_only_underlines_what_the_word_says(Severity severity, string word)
    {
        Assert.Equal($"{word} code: text\n", Printed(new(severity, "code", "text"), isQuiet: false, hasColour: true));
    }

    [Fact]
    public void Quiet_leaves_notes_out_and_keeps_what_must_be_dealt_with()
    {
        Assert.Empty(Printed(Finding.Note("code", "text", "hint"), isQuiet: true, hasColour: false));
        Assert.Equal("stop code: text\n", Printed(Finding.Stop("code", "text", "hint"), isQuiet: true, hasColour: false));
    }

    [Fact]
    public void No_control_character_of_a_desk_reaches_the_terminal()
    {
        Assert.DoesNotContain('\u001b', Printed(Finding.Note("code", "legend '\u001b]0;owned\u0007'"), isQuiet: false, hasColour: false));
    }

    private static string Printed(Finding finding, bool isQuiet, bool hasColour)
    {
        using StringWriter output = new() { NewLine = "\n" };
        FindingLines.Print(new(isQuiet, isVerbose: false, hasColour, output, TextWriter.Null), "yard", [finding]);
        return output.ToString();
    }

    private static (int Exit, string Error) End(Func<Call, int> work, CancellationToken cancellation)
    {
        using StringWriter error = new() { NewLine = "\n" };
        Terminal terminal = new(isQuiet: false, isVerbose: false, hasColour: false, TextWriter.Null, error);
        Call call = new(new RootCommand().Parse([]), terminal, IsJson: false, cancellation);
        int exit = Call.Guard(call, "build", "lampblack-build/1", work);
        return (exit, error.ToString());
    }
}
