using System;
using System.CommandLine;
using System.IO;
using System.Linq;
using System.Text.Json;
using Lampblack.Cli;
using Lampblack.Cli.Commands;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Shells.Tests;

public sealed class PrinterCommandsTests
{
    [Fact]
    public void A_printer_is_started_shown_listed_and_used()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        Assert.Contains("printer new", ProgramRun.Of(work.Full, "printer", "list").Output, StringComparison.Ordinal);
        ProgramRun made = ProgramRun.Of(work.Full, "printer", "new", "attic", "--black-only", "--paper", "letter", "--weight", "32 lb", "--slot", "manual", "--margin", "1/4 in");
        Assert.Equal((0, string.Empty), (made.Exit, made.Error));
        Assert.True(File.Exists(work.Below("own folder/printers/attic.toml")));

        ProgramRun shown = ProgramRun.Of(work.Full, "printer", "show", "attic");
        Assert.Equal((0, string.Empty), (shown.Exit, shown.Error));
        Assert.Contains("black only", shown.Output, StringComparison.Ordinal);
        Assert.Contains("Letter, 120.3 g/m2", shown.Output, StringComparison.Ordinal);
        Assert.Contains("to learn it: ", shown.Output, StringComparison.Ordinal);

        Assert.Matches(@"(?m)^attic +black only +Letter, 120.3 g/m2 +by hand +nothing yet", ProgramRun.Of(work.Full, "printer", "list").Output);

        ProgramRun built = ProgramRun.Of(work.Full, "build", "desk", "--printer", "attic", "--only", "print", "--json");
        using JsonDocument answer = JsonDocument.Parse(built.Output);
        Assert.Equal(0, built.Exit);
        Assert.Equal(("Letter", "printer", "attic"), (Text(answer, "paper"), Text(answer, "paperFrom"), Text(answer, "printer")));

        ProgramRun wrongPaper = ProgramRun.Of(work.Full, "build", "desk", "--printer", "attic", "--paper", "A4");
        Assert.Equal(1, wrongPaper.Exit);
        Assert.Contains("printer-other-paper", wrongPaper.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Show_and_list_answer_machines()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "printer", "new", "study");
        using JsonDocument shown = JsonDocument.Parse(ProgramRun.Of(work.Full, "printer", "show", "study", "--json").Output);
        Assert.Equal("lampblack-printer-show/1", Text(shown, "schema"));
        JsonElement register = shown.RootElement.GetProperty("learned").EnumerateArray().Single(fact => fact.GetProperty("what").GetString() == "register");
        Assert.False(register.GetProperty("known").GetBoolean());
        Assert.Equal(1.5, register.GetProperty("figures")[0].GetProperty("sd").GetDouble(), 9);
        using JsonDocument listed = JsonDocument.Parse(ProgramRun.Of(work.Full, "printer", "list", "--json").Output);
        Assert.Equal("study", listed.RootElement.GetProperty("printers")[0].GetProperty("name").GetString());
        using JsonDocument missing = JsonDocument.Parse(ProgramRun.Of(work.Full, "printer", "show", "nobody", "--json").Output);
        Assert.Equal(3, missing.RootElement.GetProperty("exit").GetInt32());
    }

    /// <summary>Name, file, findings as all commands about one printer tell them; nothing beside the object.</summary>
    [Fact]
    public void New_and_forget_answer_machines_as_the_others_do()
    {
        using WorkFolder work = new();
        ProgramRun made = ProgramRun.Of(work.Full, "printer", "new", "study", "--paper", "A4", "--json");
        using JsonDocument started = JsonDocument.Parse(made.Output);
        Assert.Equal((0, "lampblack-printer-new/1", "study"), (made.Exit, Text(started, "schema"), Text(started, "name")));
        Assert.Equal(work.Below("own folder/printers/study.toml"), Text(started, "file"));
        Assert.Equal(JsonValueKind.Array, started.RootElement.GetProperty("findings").ValueKind);
        using JsonDocument again = JsonDocument.Parse(ProgramRun.Of(work.Full, "printer", "new", "study", "--json").Output);
        Assert.Equal(("lampblack-printer-new/1", 3), (Text(again, "schema"), again.RootElement.GetProperty("exit").GetInt32()));
        Assert.Contains("already there", Text(again, "error"), StringComparison.Ordinal);

        using JsonDocument part = JsonDocument.Parse(ProgramRun.Of(work.Full, "printer", "forget", "study", "--what", "register", "--json").Output);
        Assert.Equal(("lampblack-printer-forget/1", "study", "register", 0), (Text(part, "schema"), Text(part, "name"), Text(part, "what"), part.RootElement.GetProperty("exit").GetInt32()));
        Assert.True(File.Exists(Text(part, "kept")));
        using JsonDocument whole = JsonDocument.Parse(ProgramRun.Of(work.Full, "printer", "forget", "study", "--json").Output);
        Assert.Equal(JsonValueKind.Null, whole.RootElement.GetProperty("what").ValueKind);
        Assert.False(File.Exists(Text(whole, "file")));
        Assert.True(File.Exists(Text(whole, "kept")));
    }

    [Fact]
    public void A_printer_is_exported_forgotten_and_taken_in_again_and_nothing_is_overwritten()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "printer", "new", "study");
        Assert.Equal(3, ProgramRun.Of(work.Full, "printer", "new", "study").Exit);
        Assert.Equal(0, ProgramRun.Of(work.Full, "printer", "export", "study", "copy.toml").Exit);
        Assert.Equal(3, ProgramRun.Of(work.Full, "printer", "export", "study", "copy.toml").Exit);
        Assert.Equal(3, ProgramRun.Of(work.Full, "printer", "import", "copy.toml", "--as", "study").Exit);
        Assert.Equal(0, ProgramRun.Of(work.Full, "printer", "forget", "study", "--what", "register").Exit);
        ProgramRun forgotten = ProgramRun.Of(work.Full, "printer", "forget", "study");
        Assert.Contains("study.toml.forgotten-2", forgotten.Output, StringComparison.Ordinal);
        Assert.Equal(3, ProgramRun.Of(work.Full, "printer", "show", "study").Exit);
        Assert.Equal(0, ProgramRun.Of(work.Full, "printer", "import", "copy.toml", "--as", "study").Exit);
        Assert.Equal(0, ProgramRun.Of(work.Full, "printer", "show", "study").Exit);
    }

    [Theory]
    [InlineData("printer export study --json")]
    [InlineData("printer export study --quite")]
    [InlineData("printer new --json")]
    [InlineData("new --force")]
    [InlineData("build desk.toml -o --pdf")]
    public void A_word_that_begins_as_options_do_is_never_taken_for_a_file_or_a_name(string line)
    {
        using WorkFolder work = new();
        Assert.Equal(0, ProgramRun.Of(work.Full, "printer", "new", "study").Exit);
        string[] before = work.Everything();
        ProgramRun run = ProgramRun.Of(work.Full, line.Split(' '));
        Assert.Equal((2, string.Empty), (run.Exit, run.Output));
        Assert.Contains("--help' shows what it takes.", run.Error, StringComparison.Ordinal);
        Assert.Equal(before, work.Everything());
        Assert.Equal(0, ProgramRun.Of(work.Full, "printer", "export", "study", "--", "--odd.toml").Exit);
        Assert.Contains("--odd.toml", work.Files());
    }

    [Fact]
    public void A_which_way_sheet_for_a_printer_has_its_paper_and_answers_machines_as_a_build_does()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "printer", "new", "attic", "--black-only", "--paper", "letter", "--turning", "automatic");
        ProgramRun run = ProgramRun.Of(work.Full, "printer", "which-way", "--printer", "attic", "--json");
        using JsonDocument answer = JsonDocument.Parse(run.Output);
        Assert.Equal((0, string.Empty), (run.Exit, run.Error));
        Assert.Equal(("lampblack-printer-which-way/1", "Letter", "printer", "attic"), (Text(answer, "schema"), Text(answer, "paper"), Text(answer, "paperFrom"), Text(answer, "printer")));
        Assert.Equal(["back.pdf", "duplex.pdf", "front.pdf", "manifest.json"], answer.RootElement.GetProperty("files").EnumerateArray().Select(file => file.GetProperty("path").GetString()));
        Assert.Contains("/MediaBox[0 0 612 792]", File.ReadAllText(work.Below("which-way/front.pdf")).Replace(" [", "[", StringComparison.Ordinal), StringComparison.Ordinal);

        Assert.Contains("Print duplex.pdf, two-sided", ProgramRun.Of(work.Full, "printer", "which-way", "--printer", "attic").Output, StringComparison.Ordinal);
        ProgramRun other = ProgramRun.Of(work.Full, "printer", "which-way", "--printer", "attic", "--paper", "A4", "-o", "other", "--json");
        Assert.Equal(1, other.Exit);
        Assert.Contains("printer-other-paper", other.Output, StringComparison.Ordinal);
        Assert.False(Directory.Exists(work.Below("other")));
        Assert.Equal(3, ProgramRun.Of(work.Full, "printer", "which-way", "--printer", "nobody").Exit);
    }

    [Fact]
    public void A_faulty_printer_file_stops_a_build_with_its_place()
    {
        using WorkFolder work = new();
        ProgramRun.Of(work.Full, "new", "desk");
        work.Put("bad.toml", "lampblack-printer = 1\nname = \"x\"\n[path]\ncolour = true\npaper = \"B5\"\n");
        ProgramRun run = ProgramRun.Of(work.Full, "build", "desk", "--printer", "bad.toml");
        Assert.Equal(1, run.Exit);
        Assert.Contains("bad.toml(5,9): stop paper-unknown", run.Output, StringComparison.Ordinal);
        Assert.False(Directory.Exists(work.Below("desk/out")));
        Assert.Equal(3, ProgramRun.Of(work.Full, "build", "desk", "--printer", "nobody").Exit);
    }

    [Theory]
    [InlineData("printer")]
    [InlineData("printer frob")]
    [InlineData("printer new")]
    [InlineData("printer new x --paper B5")]
    [InlineData("printer new x --weight heavy")]
    [InlineData("printer new x --edge left")]
    [InlineData("printer new x --margin wide")]
    [InlineData("printer forget x --what all")]
    public void Wrong_use_is_exit_code_2(string line)
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, line.Split(' '));
        Assert.Equal(2, run.Exit);
        Assert.False(Directory.Exists(work.Below("own folder/printers")));
    }

    [Theory]
    [InlineData("new")]
    [InlineData("show")]
    [InlineData("list")]
    [InlineData("export")]
    [InlineData("import")]
    [InlineData("forget")]
    [InlineData("which-way")]
    [InlineData("learn")]
    public void Every_subcommand_s_help_ends_with_an_example(string command)
    {
        using WorkFolder work = new();
        ProgramRun run = ProgramRun.Of(work.Full, "printer", command, "--help");
        Assert.Equal(0, run.Exit);
        Assert.Contains($"lampblack printer {command}", run.Output.TrimEnd().Split('\n')[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void At_a_terminal_colour_is_asked_first_and_a_wrong_answer_is_asked_again()
    {
        (NewPrinter said, string asked) = Interview([], "blue", "black", "B5", "A3", "", "tray 1", "long", "", "", "", "3 m", "4 mm", "");
        Assert.Equal(new NewPrinter("attic", true, "tray 1", "A3", "", "long", "by-hand", "front-first", "", "4 mm", "10 mm"), said);
        Assert.StartsWith("Does it print colours, or black only", asked, StringComparison.Ordinal);
        Assert.Contains("'blue' is neither colour nor black.", asked, StringComparison.Ordinal);
        Assert.Contains("'3 m' is not from 0 to 40 mm.", asked, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Y", "S", "By hand", "FRONT", false, "short", "by-hand", "front-first")]
    [InlineData("No", "Long edge", "Auto", "mask first", true, "long", "automatic", "mask-first")]
    [InlineData("black only", "l", "manual", "m", true, "long", "by-hand", "mask-first")]
    [InlineData("Color", "", "the printer", "front-first", false, "", "automatic", "front-first")]
    public void Words_are_taken_as_people_write_them(string inks, string edge, string turning, string order, bool isBlackOnly, string edgeMeant, string turningMeant, string orderMeant)
    {
        (NewPrinter said, string asked) = Interview([], inks, "A4", "", "", edge, turning, order, "", "", "");
        Assert.Equal((isBlackOnly, edgeMeant, turningMeant, orderMeant), (said.IsBlackOnly, said.Edge, said.Turning, said.Order));
        Assert.DoesNotContain("neither", asked, StringComparison.Ordinal);
        (NewPrinter optioned, _) = Interview(["--black-only", "--paper", "A4", "--weight", "", "--slot", "", "--edge", edge, "--turning", turning, "--order", order, "--heavy", "", "--margin", "5", "--leading-edge", "10"]);
        Assert.Equal((edgeMeant, turningMeant, orderMeant), (optioned.Edge, optioned.Turning, optioned.Order));
    }

    [Fact]
    public void A_word_that_could_be_either_is_asked_again_with_what_is_allowed()
    {
        (NewPrinter said, string asked) = Interview([], "perhaps", "c", "A4", "", "", "yes", "left", "short", "both", "hand", "x", "m", "", "", "");
        Assert.Equal(("short", "by-hand", "mask-first"), (said.Edge, said.Turning, said.Order));
        foreach (string told in new[] { "'perhaps' is neither colour nor black.", "'yes' is neither short nor long.", "'both' is neither by-hand nor automatic.", "'x' is neither front-first nor mask-first." })
        {
            Assert.Contains(told, asked, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void What_an_option_says_is_not_asked()
    {
        string[] options = ["--black-only", "--paper", "A4", "--weight", "120", "--slot", "2", "--edge", "short", "--turning", "automatic", "--order", "mask-first", "--heavy", "h", "--margin", "5", "--leading-edge", "12"];
        (NewPrinter said, string asked) = Interview(options);
        Assert.Equal(new NewPrinter("attic", true, "2", "A4", "120", "short", "automatic", "mask-first", "h", "5", "12"), said);
        Assert.Empty(asked);
    }

    [Fact]
    public void Answers_that_end_too_early_are_no_printer() => Assert.Throws<EndOfStreamException>(() => Interview([], "black", "A4"));

    private static (NewPrinter Said, string Asked) Interview(string[] options, params string[] answers)
    {
        PrinterAnswers questions = new();
        RootCommand command = new("test");
        questions.AddTo(command);
        using StringReader input = new(string.Concat(answers.Select(answer => answer + "\n")));
        using StringWriter output = new();
        NewPrinter said = questions.Of(command.Parse(options), "attic", new Prompt(input, output));
        return (said, output.ToString());
    }

    private static string? Text(JsonDocument document, string name) => document.RootElement.GetProperty(name).GetString();
}
