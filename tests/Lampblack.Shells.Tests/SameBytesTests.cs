using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>The same desk gives the same bytes, whatever language, clock, folder and place it is built in. Invariant 5, seen from outside.</summary>
public sealed class SameBytesTests
{
    // The decimal point (Unicode CLDR: comma in German and Turkish), the capital of i (Turkish has a dotted one) and the hours from UTC in a July
    // (tz database: Auckland 12, St. John's -2:30) prove that the surroundings really differ.
    private static readonly Surroundings[] Everywhere =
    [
        new("C.UTF-8", "UTC", "1.5 I 0", "plain", ".", "plain", null),
        new("de_DE.UTF-8", "Pacific/Auckland", "1,5 I 12", "Zweites Gerät/Pult 😀", "Zweites Gerät/Pult 😀", "desk.toml", "../../fertig"),
        new("tr_TR.UTF-8", "America/St_Johns", "1,5 İ -2.5", "down/the/long/way", "elsewhere", "{work}/down/the/long/way/desk.toml", "{work}/İstanbul/ince ış"),
    ];

    public static TheoryData<string> Examples =>
    [
        .. Directory.EnumerateDirectories(Path.Combine(LauncherTests.Root(), "examples"))
            .Select(folder => Path.GetFileName(folder))
            .Order(StringComparer.Ordinal),
    ];

    [Theory]
    [MemberData(nameof(Examples))]
    public void An_example_gives_the_same_files_in_every_language_time_zone_and_place(string example)
    {
        string from = Path.Combine(LauncherTests.Root(), "examples", example);
        CheckSame(folder =>
        {
            foreach (string file in Directory.EnumerateFiles(from))
            {
                File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
            }
        });
    }

    [Fact]
    public void A_desk_with_a_font_of_its_own_gives_the_same_files_too() => CheckSame(folder =>
    {
        Directory.CreateDirectory(Path.Combine(folder, "fonts"));
        File.Copy(OwnFont.Path, Path.Combine(folder, "fonts", "mine.ttf"));
        File.WriteAllText(Path.Combine(folder, "desk.toml"), OwnFont.Desk("fonts/mine.ttf"));
    });

    private static void CheckSame(Action<string> put)
    {
        Assert.SkipUnless(TimeZoneInfo.TryFindSystemTimeZoneById("America/St_Johns", out _), "this system has no table of time zones");
        using WorkFolder work = new();
        Dictionary<string, byte[]>? first = null;
        foreach (Surroundings here in Everywhere)
        {
            Directory.CreateDirectory(work.Below(here.Place));
            Directory.CreateDirectory(work.Below(here.Current));
            put(work.Below(here.Place));
            Dictionary<string, byte[]> made = here.Build(work);
            Assert.Contains("manifest.json", made.Keys);
            Assert.Contains("report.json", made.Keys);
            Assert.Contains("sheet-1/mask.pdf", made.Keys);
            Assert.Contains(made.Keys, path => path.EndsWith(".png", StringComparison.Ordinal));
            first ??= made;
            Assert.Equal(first.Keys.Order(StringComparer.Ordinal), made.Keys.Order(StringComparer.Ordinal));
            Assert.All(made, pair => Assert.True(first[pair.Key].AsSpan().SequenceEqual(pair.Value), $"{pair.Key} is not the same under {here.Language}"));
        }
    }

    /// <summary>One way of building a desk; paths are below the work folder, the current one may be named by <c>{work}</c> where a path is absolute.</summary>
    private sealed record Surroundings(string Language, string TimeZone, string Told, string Place, string Current, string Desk, string? Output)
    {
        internal Dictionary<string, byte[]> Build(WorkFolder work)
        {
            string current = Path.GetFullPath(work.Below(Current));
            string told = work.Below($"told {Language}");
            Dictionary<string, string> variables = new()
            {
                ["LC_ALL"] = Language,
                ["LANG"] = Language,
                ["TZ"] = TimeZone,
                ["LAMPBLACK_HOME"] = work.Below($"home {Language}"),
                ["DOTNET_STARTUP_HOOKS"] = typeof(StartupHook).Assembly.Location,
                [StartupHook.Variable] = told,
            };
            string[] output = Output is null ? [] : ["-o", Output.Replace("{work}", work.Full, StringComparison.Ordinal)];
            ProgramRun run = ProgramRun.With(
                current, variables, ["build", Desk.Replace("{work}", work.Full, StringComparison.Ordinal), "--paper", "A4", .. output]);
            Assert.Equal((0, string.Empty), (run.Exit, run.Error));

            // Windows takes the time zone from its settings only.
            string[] words = File.ReadAllText(told).Split(' ');
            int proven = OperatingSystem.IsWindows() ? 2 : 3;
            Assert.Equal(Told.Split(' ')[..proven], words[..proven]);

            string made = output.Length == 0 ? Path.Combine(work.Below(Place), "out") : Path.GetFullPath(output[1], current);
            return Directory.EnumerateFiles(made, "*", SearchOption.AllDirectories)
                .ToDictionary(path => Path.GetRelativePath(made, path).Replace('\\', '/'), File.ReadAllBytes, StringComparer.Ordinal);
        }
    }
}
