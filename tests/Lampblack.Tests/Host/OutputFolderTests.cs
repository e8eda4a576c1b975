using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using System.Threading;
using CsCheck;
using Lampblack.Host;
using Lampblack.Jobs;
using Xunit;

namespace Lampblack.Tests.Host;

public sealed class OutputFolderTests
{
    [Fact]
    public void A_first_build_makes_the_folder_and_exactly_its_files()
    {
        using WorkFolder work = new();
        OutputWriting writing = Write(work.Below("out"), MadeFiles.Of(("front.pdf", "F"), ("pictures/day.svg", "D")));
        Assert.Equal(["out/front.pdf", "out/manifest.json", "out/pictures/day.svg"], work.Files());
        Assert.Equal(["front.pdf", "pictures/day.svg", "manifest.json"], writing.Written);
        Assert.Empty(writing.Findings);
    }

    [Fact]
    public void The_next_build_replaces_its_own_files_and_removes_what_is_no_longer_made()
    {
        using WorkFolder work = new();
        Write(work.Full, MadeFiles.Of(("front.pdf", "old"), ("pictures/day.svg", "D"), ("same.txt", "S")));
        OutputWriting writing = Write(work.Full, MadeFiles.Of(("front.pdf", "new"), ("same.txt", "S")));
        Assert.Equal(["front.pdf", "manifest.json", "same.txt"], work.Files());
        Assert.Equal("new", work.Text("front.pdf"));
        Assert.False(Directory.Exists(work.Below("pictures")));
        Assert.Equal(["pictures/day.svg"], writing.Removed);
        Assert.Equal(["same.txt"], writing.Unchanged);
    }

    [Fact]
    public void The_same_build_again_touches_nothing()
    {
        using WorkFolder work = new();
        Write(work.Full, MadeFiles.Of(("front.pdf", "F")));
        DateTime long_ago = new(2001, 2, 3, 4, 5, 6, DateTimeKind.Utc);
        File.SetLastWriteTimeUtc(work.Below("front.pdf"), long_ago);
        OutputWriting writing = Write(work.Full, MadeFiles.Of(("front.pdf", "F")));
        Assert.Empty(writing.Written);
        Assert.Equal(long_ago, File.GetLastWriteTimeUtc(work.Below("front.pdf")));
    }

    [Fact]
    public void A_strangers_file_in_the_way_is_kept_under_another_name()
    {
        using WorkFolder work = new();
        work.Put("front.pdf", "my own drawing");
        work.Put("front.pdf.kept-1", "kept before");
        work.Put("manifest.json", "{\"my\": \"list\"}");
        OutputWriting writing = Write(work.Full, MadeFiles.Of(("front.pdf", "F")));
        Assert.Equal("F", work.Text("front.pdf"));
        Assert.Equal("my own drawing", work.Text("front.pdf.kept-2"));
        Assert.Equal("kept before", work.Text("front.pdf.kept-1"));
        Assert.Equal("{\"my\": \"list\"}", work.Text("manifest.json.kept-1"));
        Assert.Equal(["output-kept", "output-kept"], writing.Findings.Select(finding => finding.Code));
        Assert.Contains("front.pdf.kept-2", writing.Findings[0].Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_changed_by_hand_is_kept_when_it_is_made_again_and_left_when_it_is_not()
    {
        using WorkFolder work = new();
        Write(work.Full, MadeFiles.Of(("a.txt", "A"), ("b.txt", "B")));
        work.Put("a.txt", "A by hand");
        work.Put("b.txt", "B by hand");
        OutputWriting writing = Write(work.Full, MadeFiles.Of(("a.txt", "A2")));
        Assert.Equal(["a.txt", "a.txt.kept-1", "b.txt", "manifest.json"], work.Files());
        Assert.Equal("A by hand", work.Text("a.txt.kept-1"));
        Assert.Equal("B by hand", work.Text("b.txt"));
        Assert.Equal(["output-kept", "output-left"], writing.Findings.Select(finding => finding.Code).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_file_that_no_manifest_lists_is_never_removed()
    {
        using WorkFolder work = new();
        Write(work.Full, MadeFiles.Of(("a.txt", "A")));
        work.Put("notes.txt", "A");
        Write(work.Full, MadeFiles.Of(("b.txt", "B")));
        Assert.Equal(["b.txt", "manifest.json", "notes.txt"], work.Files());
    }

    [Fact]
    public void A_manifest_from_somebody_else_cannot_reach_out_of_the_folder()
    {
        using WorkFolder work = new();
        work.Put("precious.txt", "P");
        string hash = Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData("P"u8));
        work.Put("elsewhere/deep.txt", "P");
        Directory.CreateDirectory(work.Below("out"));
        Directory.CreateSymbolicLink(work.Below("out/link"), work.Below("elsewhere"));
        string[] paths = ["../precious.txt", work.Below("precious.txt"), "link/deep.txt", "a/../../precious.txt"];
        string entries = string.Join(',', paths.Select(path => $"{{\"path\":{System.Text.Json.JsonSerializer.Serialize(path)},\"sha256\":\"{hash}\"}}"));
        work.Put("out/manifest.json", $"{{\"schema\":\"lampblack-manifest/1\",\"files\":[{entries}]}}");
        Write(work.Below("out"), MadeFiles.Of(("a.txt", "A")));
        Assert.Equal("P", work.Text("precious.txt"));
        Assert.Equal("P", work.Text("elsewhere/deep.txt"));
    }

    [Fact]
    public void A_link_in_the_way_is_set_aside_and_its_target_is_not_written_to()
    {
        using WorkFolder work = new();
        work.Put("precious.txt", "P");
        Directory.CreateDirectory(work.Below("out"));
        File.CreateSymbolicLink(work.Below("out/a.txt"), work.Below("precious.txt"));
        File.CreateSymbolicLink(work.Below("out/dangling.txt"), work.Below("nowhere.txt"));
        Write(work.Below("out"), MadeFiles.Of(("a.txt", "A"), ("dangling.txt", "D")));
        Assert.Equal("P", work.Text("precious.txt"));
        Assert.False(File.Exists(work.Below("nowhere.txt")));
        Assert.Equal("A", work.Text("out/a.txt"));
        Assert.Equal(work.Below("precious.txt"), new FileInfo(work.Below("out/a.txt.kept-1")).LinkTarget);
    }

    [Fact]
    public void A_link_where_a_folder_belongs_is_refused_and_nothing_changes()
    {
        using WorkFolder work = new();
        Directory.CreateDirectory(work.Below("elsewhere"));
        Write(work.Below("out"), MadeFiles.Of(("a.txt", "old")));
        Directory.CreateSymbolicLink(work.Below("out/pictures"), work.Below("elsewhere"));
        Assert.Throws<FileProblemException>(() => Write(work.Below("out"), MadeFiles.Of(("a.txt", "new"), ("pictures/day.svg", "D"))));
        Assert.Equal("old", work.Text("out/a.txt"));
        Assert.Empty(Directory.EnumerateFileSystemEntries(work.Below("elsewhere")));
        Assert.Equal(["out/a.txt", "out/manifest.json", "out/pictures"], work.Files());
    }

    [Fact]
    public void A_folder_where_a_file_belongs_is_refused_with_its_name()
    {
        using WorkFolder work = new();
        Directory.CreateDirectory(work.Below("front.pdf"));
        FileProblemException problem = Assert.Throws<FileProblemException>(() => Write(work.Full, MadeFiles.Of(("front.pdf", "F"))));
        Assert.Contains("front.pdf", problem.Message, StringComparison.Ordinal);
        Assert.Empty(work.Files());
    }

    [Fact]
    public void When_one_step_of_the_exchange_fails_all_others_are_taken_back()
    {
        // The second stranger's name leaves no room for ".kept-1" (255 bytes is the most a name can have), so setting it aside fails.
        using WorkFolder work = new();
        string longest = new('x', 252);
        work.Put("a.txt", "mine");
        work.Put(longest, "mine too");
        FileProblemException problem = Assert.Throws<FileProblemException>(() => Write(work.Full, MadeFiles.Of(("a.txt", "A"), (longest, "L"))));
        Assert.Contains(longest, problem.Message, StringComparison.Ordinal);
        Assert.Equal(["a.txt", longest], work.Files());
        Assert.Equal("mine", work.Text("a.txt"));
        Assert.Equal("mine too", work.Text(longest));
    }

    [Fact]
    public void A_build_that_died_in_the_exchange_leaves_files_that_the_next_one_knows()
    {
        // As a power cut leaves it: the journal stands, one file is new already, the manifest is the old one, and temporary files lie about.
        using WorkFolder work = new();
        Write(work.Full, MadeFiles.Of(("a.txt", "A1"), ("b.txt", "B1"), ("sub/c.txt", "C1")));
        OutputFile journal = MadeFiles.Of(("a.txt", "A2"), ("d.txt", "D2"))[^1];
        File.WriteAllBytes(work.Below(".lampblack-pending"), journal.Bytes.AsSpan());
        work.Put("a.txt", "A2");
        work.Put("d.txt", "D2");
        work.Put(".lampblack-tmp-0123456789abcdef", "half");
        work.Put("sub/.lampblack-tmp-fedcba9876543210", "half");
        work.Put(".lampblack-tmp-mine", "a name that only looks like ours");
        OutputWriting writing = Write(work.Full, MadeFiles.Of(("a.txt", "A3"), ("b.txt", "B1"), ("sub/c.txt", "C1")));
        Assert.Equal([".lampblack-tmp-mine", "a.txt", "b.txt", "manifest.json", "sub/c.txt"], work.Files());
        Assert.Equal("A3", work.Text("a.txt"));
        Assert.Equal(["d.txt"], writing.Removed);
        Assert.Empty(writing.Findings);
    }

    [Fact]
    public void Stopping_before_the_exchange_leaves_the_old_set_and_no_litter()
    {
        using WorkFolder work = new();
        Write(work.Full, MadeFiles.Of(("a.txt", "old")));
        using CancellationTokenSource source = new();
        source.Cancel();
        using (OutputFolder folder = OutputFolder.Open(work.Full, TimeSpan.Zero, () => { }, CancellationToken.None))
        {
            Assert.Throws<OperationCanceledException>(() => folder.Write(MadeFiles.Of(("a.txt", "new"), ("sub/b.txt", "B")), source.Token));
        }

        Assert.Equal(["a.txt", "manifest.json"], work.Files());
        Assert.False(Directory.Exists(work.Below("sub")));
        Assert.Equal("old", work.Text("a.txt"));
    }

    [Fact]
    public void A_second_build_waits_for_the_first_and_gives_up_in_plain_words()
    {
        using WorkFolder work = new();
        using OutputFolder first = OutputFolder.Open(work.Full, TimeSpan.Zero, () => { }, CancellationToken.None);
        int told = 0;
        FileProblemException problem = Assert.Throws<FileProblemException>(
            () => OutputFolder.Open(work.Full, TimeSpan.FromMilliseconds(250), () => told++, CancellationToken.None));
        Assert.Equal(1, told);
        Assert.Contains("Another build", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_lock_file_that_a_killed_build_left_holds_nobody_up()
    {
        using WorkFolder work = new();
        work.Put(".lampblack-lock", "left over");
        Write(work.Full, MadeFiles.Of(("a.txt", "A")));
        Assert.Equal(["a.txt", "manifest.json"], work.Files());
    }

    [Fact]
    public void Many_builds_at_once_leave_one_complete_set()
    {
        using WorkFolder work = new();
        Thread[] threads =
        [
            .. Enumerable.Range(0, 8).Select(number => new Thread(() =>
                Write(work.Full, MadeFiles.Of(("a.txt", $"A{number}"), ("b.txt", $"B{number}"), ($"only-{number}.txt", "x"))))),
        ];
        threads.ToList().ForEach(thread => thread.Start());
        threads.ToList().ForEach(thread => thread.Join());
        string last = work.Text("a.txt")[1..];
        Assert.Equal(["a.txt", "b.txt", "manifest.json", $"only-{last}.txt"], work.Files());
        Assert.Equal("B" + last, work.Text("b.txt"));
    }

    [Fact]
    public void Folders_made_for_nothing_are_removed_again_and_those_that_were_there_stay()
    {
        using WorkFolder work = new();
        Directory.CreateDirectory(work.Below("there"));
        OutputFolder.Open(work.Below("there/new/out"), TimeSpan.Zero, () => { }, CancellationToken.None).Dispose();
        Assert.True(Directory.Exists(work.Below("there")));
        Assert.False(Directory.Exists(work.Below("there/new")));
    }

    [Fact]
    public void A_folder_below_a_file_is_not_waited_for()
    {
        using WorkFolder work = new();
        work.Put("taken", "a file");
        FileProblemException problem = Assert.Throws<FileProblemException>(
            () => OutputFolder.Open(work.Below("taken/below/out"), TimeSpan.FromSeconds(1), () => Assert.Fail("waits"), CancellationToken.None));
        Assert.Contains("taken' is a file", problem.Message, StringComparison.Ordinal);
        Assert.Throws<DirectoryNotFoundException>(
            () => FolderLock.Take(work.Below("taken/below"), TimeSpan.FromSeconds(1), () => Assert.Fail("waits"), CancellationToken.None));
    }

    [Theory]
    [InlineData("out")]
    [InlineData("new/newer/out")]
    public void Builds_that_write_nothing_do_not_pull_the_folder_away_from_each_other(string name)
    {
        using WorkFolder work = new();
        List<Exception> faults = [];
        Thread[] threads =
        [
            .. Enumerable.Range(0, 6).Select(_ => new Thread(() =>
            {
                try
                {
                    for (int round = 0; round < 5; round++)
                    {
                        OutputFolder.Open(work.Below(name), TimeSpan.FromSeconds(30), () => { }, CancellationToken.None).Dispose();
                    }
                }
                catch (FileProblemException fault)
                {
                    lock (faults)
                    {
                        faults.Add(fault);
                    }
                }
            })),
        ];
        threads.ToList().ForEach(thread => thread.Start());
        threads.ToList().ForEach(thread => thread.Join());
        Assert.Empty(faults);
        Assert.Empty(work.Files());
    }

    [Fact]
    public void Names_that_differ_only_in_case_from_an_earlier_build_leave_only_the_new_one()
    {
        using WorkFolder work = new();
        Write(work.Full, MadeFiles.Of(("Front.pdf", "F")));
        Write(work.Full, MadeFiles.Of(("front.pdf", "F")));
        Assert.Equal(["front.pdf", "manifest.json"], work.Files());
    }

    [Theory]
    [InlineData("../a.txt")]
    [InlineData("/etc/a.txt")]
    [InlineData("C:/a.txt")]
    [InlineData("sub//a.txt")]
    [InlineData("nul.txt")]
    [InlineData(".lampblack-tmp-0123456789abcdef")]
    public void A_build_with_a_name_that_leaves_the_folder_is_our_own_fault(string name)
    {
        using WorkFolder work = new();
        Assert.Throws<ArgumentException>(() => Write(work.Below("out"), MadeFiles.Of((name, "A"))));
        Assert.Empty(work.Files());
    }

    [Fact]
    public void A_build_whose_manifest_forgets_a_file_is_our_own_fault()
    {
        using WorkFolder work = new();
        OutputFile stranger = new("stranger.txt", "not listed", [1]);
        Assert.Throws<ArgumentException>(() => Write(work.Full, [.. MadeFiles.Of(("a.txt", "A")), stranger]));
    }

    [Fact]
    public void Whatever_the_maker_and_the_builds_do_no_text_of_the_maker_is_lost()
    {
        string[] names = ["a.txt", "b.txt", "sub/c.txt", "manifest.json"];
        Gen<(int Kind, int Name, int Subset)> step = Gen.Select(Gen.Int[0, 2], Gen.Int[0, 3], Gen.Int[0, 7]);
        step.Array[1, 12].Sample(
            steps =>
            {
                using WorkFolder work = new("lampblack steps");
                HashSet<string> mine = [];
                int count = 0;
                foreach ((int kind, int name, int subset) in steps)
                {
                    count++;
                    if (kind == 0)
                    {
                        // The maker overwrites only what is not the maker's own text, so each text should survive somewhere.
                        string path = work.Below(names[name]);
                        if (!File.Exists(path) || !mine.Contains(File.ReadAllText(path)))
                        {
                            work.Put(names[name], $"mine {count}");
                            mine.Add($"mine {count}");
                        }
                    }
                    else
                    {
                        (string, string)[] made = [.. names.Take(3).Where((_, index) => (subset >> index & 1) == 1).Select(made => (made, $"build {subset} {kind}"))];
                        Write(work.Full, MadeFiles.Of(made));
                        foreach ((string path, string text) in made)
                        {
                            Assert.Equal(text, work.Text(path));
                        }
                    }
                }

                HashSet<string> there = [.. work.Files().Select(work.Text)];
                Assert.Subset(there, mine);
                Assert.DoesNotContain(work.Files(), name => name.Contains(".lampblack", StringComparison.Ordinal));
            },
            iter: Environment.GetEnvironmentVariable("LAMPBLACK_LONG") == "1" ? 600 : 40,
            threads: 1);
    }

    private static OutputWriting Write(string path, IReadOnlyList<OutputFile> files)
    {
        using OutputFolder folder = OutputFolder.Open(path, TimeSpan.FromSeconds(30), () => { }, CancellationToken.None);
        return folder.Write(files, CancellationToken.None);
    }
}
