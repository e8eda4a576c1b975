using System;
using System.Linq;
using Xunit;

namespace Lampblack.Shells.Tests;

public sealed class CommandLineTests
{
    [Fact]
    public void Version_is_one_line()
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, "--version");
        Assert.Equal(0, run.Exit);
        Assert.Matches(@"^lampblack \d+\.\d+\.\d+\S*\r?\n$", run.Output);
        Assert.Empty(run.Error);
    }

    [Fact]
    public void Help_names_every_command_and_the_examples_can_be_typed()
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, "--help");
        Assert.Equal(0, run.Exit);
        foreach (string command in new[] { "new", "check", "build", "drilled", "printer", "doctor", "completion" })
        {
            Assert.Matches($@"(?m)^  {command}\b", run.Output);
        }

        Assert.Contains("lampblack new my-desk", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("new")]
    [InlineData("check")]
    [InlineData("build")]
    [InlineData("drilled")]
    [InlineData("printer")]
    [InlineData("doctor")]
    [InlineData("completion")]
    public void Every_commands_help_ends_with_an_example(string command)
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, command, "--help");
        Assert.Equal(0, run.Exit);
        Assert.Contains("Example", run.Output, StringComparison.Ordinal);
        Assert.Contains($"lampblack {command}", run.Output.TrimEnd().Split('\n')[^1], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("frobnicate")]
    [InlineData("check")]
    [InlineData("check a b")]
    [InlineData("build x --frob")]
    [InlineData("build x --paper B5")]
    [InlineData("build x --spread much")]
    [InlineData("build x --spread -1")]
    [InlineData("build x --spread")]
    [InlineData("build x --bracket much")]
    [InlineData("build --bracket x")]
    [InlineData("build x --second-pass twice")]
    [InlineData("build x --only front")]
    [InlineData("new x --like pottery")]
    [InlineData("completion ksh")]
    [InlineData("drilled")]
    [InlineData("drilled x --clear")]
    public void Wrong_use_is_exit_code_2_with_a_way_on(string line)
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, line.Split(' ', StringSplitOptions.RemoveEmptyEntries));
        Assert.Equal(2, run.Exit);
        Assert.Empty(run.Output);
        Assert.Contains("lampblack", run.Error, StringComparison.Ordinal);
        Assert.Empty(work.Files());
    }

    [Fact]
    public void A_slip_of_the_pen_gets_the_nearest_command()
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, "biuld");
        Assert.Equal(2, run.Exit);
        Assert.Contains("build", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_slip_of_the_pen_says_nothing_of_what_stands_behind_it()
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, "chek", "d1", "--paper", "A4");
        Assert.Equal((2, string.Empty), (run.Exit, run.Output));
        Assert.Contains("check", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("d1", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("-h", run.Error.Replace("--help", string.Empty, StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public void An_at_sign_before_a_desks_name_is_part_of_the_name()
    {
        using WorkFolder work = new();
        Assert.Equal(0, ProgramRun.Of(work.Full, "new", "@home").Exit);
        Assert.Equal(["@home/desk.toml"], work.Files());

        // A command that nobody knows is no file of arguments either, whatever such a file would hold.
        work.Put("resp", "--help");
        ProgramRun run = ProgramRun.Of(work.Full, "@resp", "x");
        Assert.Equal((2, string.Empty), (run.Exit, run.Output));
        Assert.Contains("@resp", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("xception", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("b", "build")]
    [InlineData("dr", "drilled")]
    [InlineData("drilled x --cl", "--clear")]
    [InlineData("build x --pa", "--paper")]
    [InlineData("build x --paper L", "Letter")]
    [InlineData("build x --black ", "safe")]
    [InlineData("completion f", "fish")]
    public void The_program_suggests_how_a_line_goes_on(string line, string suggestion)
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, $"[suggest:{line.Length}]", line);
        Assert.Equal(0, run.Exit);
        Assert.Contains(suggestion, run.Output.Split('\n').Select(answer => answer.Trim()));
    }

    [Theory]
    [InlineData("bash", "complete ")]
    [InlineData("zsh", "compdef ")]
    [InlineData("fish", "complete -c lampblack")]
    [InlineData("pwsh", "Register-ArgumentCompleter")]
    public void Each_shell_gets_its_script(string shell, string words)
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, "completion", shell);
        Assert.Equal(0, run.Exit);
        Assert.Contains(words, run.Output, StringComparison.Ordinal);
        Assert.Contains("[suggest:", run.Output, StringComparison.Ordinal);
    }
}
