using System;
using System.IO;
using System.Linq;
using System.Threading.Tasks;
using Lampblack.Findings;
using Lampblack.Host;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Tests.Printers;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class PrinterShelfTests
{
    [Fact]
    public void A_new_printer_lies_in_the_users_folder_and_is_read_back()
    {
        using WorkFolder work = new();
        PrinterShelf shelf = new(work.Below("home/printers"));
        Assert.Empty(shelf.All());
        ShelvedPrinter made = shelf.Create("study", PrinterSamples.New());
        Assert.True(made.IsChanged);
        Assert.Equal(["home/printers/study.toml"], work.Files());
        Assert.Equal(PrinterSamples.Colour, shelf.Read("STUDY").Reading.Value.Path);
        Assert.Equal(["study"], shelf.All().Select(printer => printer.Name));
        Assert.Throws<FileProblemException>(() => shelf.Create("Study", PrinterSamples.New()));
    }

    [Fact]
    public void A_path_ending_in_toml_is_a_file_of_the_makers_own()
    {
        using WorkFolder work = new();
        PrinterShelf shelf = new(work.Below("home"));
        shelf.Create(work.Below("my desk/laser 2.toml"), PrinterSamples.New());
        Assert.Equal(["my desk/laser 2.toml"], work.Files());
        Assert.Equal("laser 2", shelf.Read(work.Below("my desk/laser 2.toml")).Name);
    }

    [Theory]
    [InlineData("")]
    [InlineData("two words")]
    [InlineData("a/b")]
    [InlineData("..")]
    [InlineData("-x")]
    [InlineData("con")]
    [InlineData("LPT1")]
    [InlineData("study.txt")]
    [InlineData("a\u0001")]
    [InlineData("abcdefghijabcdefghijabcdefghijabcdefghijabcdefghijabcdefghijk")]
    public void Other_names_are_refused_with_a_sentence(string name)
    {
        using WorkFolder work = new();
        PrinterShelf shelf = new(work.Below("home"));
        Assert.NotNull(PrinterShelf.NameProblem(name));
        Assert.Throws<FileProblemException>(() => shelf.Create(name, PrinterSamples.New()));
        Assert.Empty(work.Files());
    }

    [Fact]
    public void Umlauts_are_one_name_however_they_are_composed()
    {
        using WorkFolder work = new();
        PrinterShelf shelf = new(work.Below("home"));
        shelf.Create("büro", PrinterSamples.New());
        Assert.Equal("büro", shelf.Read("BÜRO").Name);
    }

    /// <summary>Eight programs with shelves, handles and locks of their own: every entry of each is there in the end, none twice.</summary>
    [Fact]
    public async Task Programs_that_learn_at_once_lose_nothing()
    {
        using WorkFolder work = new();
        new PrinterShelf(work.Below("home")).Create("study", PrinterSamples.New());
        const int Programs = 8;
        const int Entries = 6;
        await Task.WhenAll(Enumerable.Range(0, Programs).Select(program => Task.Factory.StartNew(
            () =>
            {
                PrinterShelf own = new(work.Below("home"));
                for (int entry = 0; entry < Entries; entry++)
                {
                    double right = program + (entry / 10.0);
                    ShelvedPrinter after = Change(own, "study", file => new(file with { Register = [.. file.Register, new("dots", [new(0, 0, right, null, 0.1)])] }, []));
                    Assert.True(after.IsChanged);
                }
            },
            TestContext.Current.CancellationToken,
            TaskCreationOptions.LongRunning,
            TaskScheduler.Default)));

        ShelvedPrinter end = new PrinterShelf(work.Below("home")).Read("study");
        Assert.Empty(end.Reading.Findings);
        Assert.Equal(
            Enumerable.Range(0, Programs).SelectMany(program => Enumerable.Range(0, Entries).Select(entry => program + (entry / 10.0))).Order(),
            end.Reading.Value.Register.Select(entry => entry.Readings[0].RightMm!.Value).Order());
        Assert.Equal(["home/study.toml"], work.Files());
    }

    [Fact]
    public void A_change_with_a_stop_finding_writes_nothing()
    {
        using WorkFolder work = new();
        PrinterShelf shelf = new(work.Below("home"));
        shelf.Create("study", PrinterSamples.New());
        string before = work.Text("home/study.toml");
        ShelvedPrinter after = Change(shelf, "study", file => new(file with { Name = "other" }, [Finding.Stop("key-missing", "no")]));
        Assert.True(after.Reading.HasStop && !after.IsChanged);
        Assert.Equal("study", after.Reading.Value.Name);
        Assert.Equal(before, work.Text("home/study.toml"));

        // What could not be read again is not written either.
        ShelvedPrinter unreadable = Change(shelf, "study", file => new(file with { Name = "\u0007" }, []));
        Assert.True(unreadable.Reading.HasStop && !unreadable.IsChanged);
        Assert.Equal(before, work.Text("home/study.toml"));
    }

    [Fact]
    public void A_change_that_changes_nothing_leaves_the_file_untouched()
    {
        using WorkFolder work = new();
        PrinterShelf shelf = new(work.Below("home"));
        shelf.Create("study", PrinterSamples.New());
        Assert.False(Change(shelf, "study", file => new(file, [])).IsChanged);
    }

    [Fact]
    public void A_faulty_file_is_neither_changed_nor_exported()
    {
        using WorkFolder work = new();
        work.Put("home/study.toml", "lampblack-printer = 9\n");
        PrinterShelf shelf = new(work.Below("home"));
        Assert.Equal("format-newer", Assert.Single(Change(shelf, "study", file => throw new InvalidOperationException()).Reading.Findings).Code);
        Assert.True(shelf.Export("study", work.Below("copy.toml")).Reading.HasStop);
        Assert.True(shelf.Forget("study", PrinterLore.Turn).Printer.Reading.HasStop);
        Assert.Equal(["home/study.toml"], work.Files());
    }

    [Fact]
    public void What_is_missing_or_too_large_is_said_in_a_sentence()
    {
        using WorkFolder work = new();
        work.Put("home/huge.toml", new string('#', 1_000_001));
        PrinterShelf shelf = new(work.Below("home"));
        Assert.Contains("printer new", Assert.Throws<FileProblemException>(() => shelf.Read("nowhere")).Message, StringComparison.Ordinal);
        Assert.Contains("printer new", Assert.Throws<FileProblemException>(() => Change(shelf, "nowhere", file => new(file, []))).Message, StringComparison.Ordinal);
        Assert.Contains("1 MB", Assert.Throws<FileProblemException>(() => shelf.Read("huge")).Message, StringComparison.Ordinal);
        Assert.Equal("printer-unreadable", Assert.Single(Assert.Single(shelf.All()).Reading.Findings).Code);
    }

    [Fact]
    public void A_printer_travels_by_export_and_import_and_nothing_is_overwritten()
    {
        using WorkFolder work = new();
        PrinterShelf here = new(work.Below("here"));
        PrinterShelf there = new(work.Below("there"));
        here.Create("study", PrinterSamples.New() with { Bars = [new(100.2, null)] });
        here.Export("study", work.Below("copy.toml"));
        Assert.Throws<FileProblemException>(() => here.Export("study", work.Below("copy.toml")));
        there.Import(work.Below("copy.toml"), "attic");
        Assert.Equal(100.2, there.Read("attic").Reading.Value.Bars[0].FrontMm);
        Assert.Throws<FileProblemException>(() => there.Import(work.Below("copy.toml"), "attic"));
        Assert.Throws<FileProblemException>(() => there.Import(work.Below("copy.toml"), "../attic"));
        there.Import(work.Below("copy.toml"), null);
        Assert.Equal(["attic", "copy"], there.All().Select(printer => printer.Name));
    }

    [Fact]
    public void What_is_forgotten_is_kept_beside_it()
    {
        using WorkFolder work = new();
        PrinterShelf shelf = new(work.Below("home"));
        shelf.Create("study", PrinterSamples.New() with { Bars = [new(100.2, null)], Turns = [new(Tick.A, PrintedFace.Unknown)] });
        string whole = work.Text("home/study.toml");
        shelf.Forget("study", PrinterLore.Bars);
        Assert.Empty(shelf.Read("study").Reading.Value.Bars);
        Assert.Single(shelf.Read("study").Reading.Value.Turns);
        Assert.Equal(whole, work.Text("home/study.toml.forgotten"));
        shelf.Forget("study", null);
        Assert.Equal(["home/study.toml.forgotten", "home/study.toml.forgotten-2"], work.Files());
        Assert.Empty(shelf.All());
    }

    [Fact]
    public void A_link_stays_a_link_and_its_file_is_changed()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "links need rights there");
        using WorkFolder work = new();
        PrinterShelf shelf = new(work.Below("home"));
        shelf.Create(work.Below("shared/laser.toml"), PrinterSamples.New());
        Directory.CreateDirectory(work.Below("home"));
        File.CreateSymbolicLink(work.Below("home/laser.toml"), work.Below("shared/laser.toml"));
        Assert.True(Change(shelf, "laser", file => new(file with { Name = "other" }, [])).IsChanged);
        Assert.NotNull(new FileInfo(work.Below("home/laser.toml")).LinkTarget);
        Assert.Contains("other", work.Text("shared/laser.toml"), StringComparison.Ordinal);
    }

    private static ShelvedPrinter Change(PrinterShelf shelf, string name, Func<PrinterFile, Checked<PrinterFile>> change) =>
        shelf.Change(name, change, cancellation: TestContext.Current.CancellationToken);
}
