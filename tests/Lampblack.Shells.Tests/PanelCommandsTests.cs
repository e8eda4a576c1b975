using System;
using System.Collections.Generic;
using System.Diagnostics;
using System.IO;
using System.Linq;
using System.Text.Json;
using System.Threading;
using System.Threading.Channels;
using System.Threading.Tasks;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>The program beside the engine's own firmware in a simulated chip, and somebody who does what is asked.</summary>
public sealed class PanelCommandsTests
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(90);

    /// <summary>How long nothing right has to come before the maker presses Enter: the simulated chip is slower than a real one.</summary>
    private static readonly TimeSpan Enough = TimeSpan.FromSeconds(15);

    private static readonly Dictionary<string, string[]> Hands = new()
    {
        ["First put"] = ["close contact.0", "close contact.3", "select ladder.0 0", "slide wiper.0 0"],
        ["Put POINTS to OFF."] = ["open contact.0"],
        ["Put POINTS to LOOP."] = ["close contact.1"],
        ["Put POINTS to MAIN."] = ["open contact.1", "close contact.0"],
        ["Press CALL"] = ["close contact.2"],
        ["Let CALL go."] = ["open contact.2"],
        ["Put ROAD to 2."] = ["open contact.3", "close contact.4"],
        ["Put ROAD to 3."] = ["open contact.4", "close contact.5"],
        ["Put ROAD to 1."] = ["open contact.5", "close contact.3"],
        ["Turn SPEED clockwise"] = ["turn encoder.0 32 200"],
        ["Turn SPEED counter-clockwise"] = ["turn encoder.0 -32 200"],
        ["Move VOLUME all the way to its end"] = ["slide wiper.0 1"],
        ["Move VOLUME all the way back"] = ["slide wiper.0 0"],
        ["Put SCENE to DUSK."] = ["select ladder.0 1"],
        ["Put SCENE to NIGHT."] = ["select ladder.0 2"],
        ["Put SCENE to DAY."] = ["select ladder.0 0"],
    };

    /// <summary>Invented.</summary>
    private const string Wired = """
        lampblack = 1

        [controller]
        chip = "ATmega328P"

        [[panel]]
        id = "kiln"
        size = [120, 70]

          [[panel.control]]
          id = "fan"
          part = "toggle-mini-on-on"
          at = [30, 25]
          legend = "FAN"
          states = ["ON", "OFF"]

        """;

    [Fact]
    public async Task A_simulated_panel_is_listened_to()
    {
        using WorkFolder work = new();
        await using Run run = Started(work, "listen", "--simulate", "--plan", Plan(work));
        await run.Until("\"state\":\"connected\"");
        run.Type("!close contact.0");
        Assert.EndsWith("\"kind\":\"control\",\"id\":\"yard/points\",\"state\":\"MAIN\"}", await run.Until("yard/points\",\"state\":\"MAIN"), StringComparison.Ordinal);
        run.Type("!slide wiper.0 0.5");
        using (JsonDocument line = JsonDocument.Parse(await run.Until("yard/volume\",\"value\":0.5")))
        {
            Assert.Equal(["t", "kind", "id", "value"], line.RootElement.EnumerateObject().Select(property => property.Name));
        }

        Assert.Equal(130, await run.Stop());
    }

    [Fact]
    public async Task A_good_panel_answers_the_roll_and_its_record_is_kept()
    {
        using WorkFolder work = new();
        await using (Run run = Started(work, "rollcall", "--simulate", "--plan", Plan(work), "--record", "roll.json"))
        {
            await Play(run);
            Assert.Contains(run.Lines, line => line == "8 of 8 answer.");
            Assert.Equal(0, await run.End());
        }

        // All that is left to do is nothing.
        await using Run again = Started(work, "rollcall", "--simulate", "--plan", Plan(work), "--record", "roll.json");
        await again.Until("8 of 8 answer.");
        Assert.Equal(0, await again.End());
    }

    /// <summary>A computer that goes out in the middle costs no more than the control that was being called; a record of another plan is kept beside.</summary>
    [Fact]
    public async Task What_answered_is_in_the_record_at_once_and_a_record_of_another_plan_is_kept()
    {
        using WorkFolder work = new();
        work.Put("roll.json", "{\"schema\":\"lampblack-rollcall/1\",\"plan\":\"0BADF00D\",\"controls\":[]}");
        await using Run run = Started(work, "rollcall", "--simulate", "--plan", Plan(work), "--record", "roll.json", "--only", "yard/call", "--only", "yard/call.lamp");
        await run.Until("Press CALL");
        run.Type("!close contact.2");
        await run.Until("Let CALL go.");
        run.Type("!open contact.2");
        await run.Until("Does the lamp");
        run.Kill();
        using JsonDocument record = JsonDocument.Parse(File.ReadAllText(work.Below("roll.json")));
        Assert.Equal(
            ["yard/call answered", "yard/call.lamp not-called"],
            record.RootElement.GetProperty("controls").EnumerateArray().Select(one => $"{one.GetProperty("id").GetString()} {one.GetProperty("verdict").GetString()}"));
        Assert.Contains("0BADF00D", File.ReadAllText(work.Below("roll-before.json")), StringComparison.Ordinal);
        Assert.Contains(run.Lines, line => line.Contains("it is kept as roll-before.json", StringComparison.Ordinal));
    }

    /// <summary>The engine says done when the levels are written into its EEPROM; nothing is complained about.</summary>
    [Fact]
    public async Task Levels_are_kept_on_a_word()
    {
        using WorkFolder work = new();
        await using Run run = Started(work, "listen", "--simulate", "--plan", Plan(work));
        await run.Until("\"state\":\"connected\"");
        run.Type("{\"set\": \"legends\", \"level\": 0.5}");
        run.Type("{\"keep\": true}");
        run.Type("!close contact.0");
        await run.Until("yard/points\",\"state\":\"MAIN");
        await Task.Delay(TimeSpan.FromSeconds(3), TestContext.Current.CancellationToken);
        Assert.Equal(130, await run.Stop());
        Assert.DoesNotContain(run.Lines, line => line.Contains("refused", StringComparison.Ordinal));
    }

    [Fact]
    public void Flashing_without_a_build_says_that_one_is_missing_and_takes_the_desk_alone()
    {
        using WorkFolder work = new();
        work.Put("desk/desk.toml", Wired);
        ProgramRun unbuilt = ProgramRun.Of(work.Full, "flash", "desk", "--print");
        Assert.Equal(3, unbuilt.Exit);
        Assert.Contains("nothing was built yet", unbuilt.Error, StringComparison.Ordinal);
        Assert.Contains("lampblack build desk", unbuilt.Error, StringComparison.Ordinal);
        work.Put("desk/out/firmware/panel.hex", ":00000001FF\n");
        foreach (string[] words in (string[][])[["COM3", "desk"], ["COM3", "--desk", "desk"]])
        {
            ProgramRun built = ProgramRun.Of(work.Full, ["flash", .. words, "--print"]);
            Assert.Equal(0, built.Exit);
            Assert.Contains("-P COM3", built.Output, StringComparison.Ordinal);
            Assert.Contains("panel.hex:i", built.Output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_diode_the_wrong_way_round_is_found_in_the_engines_own_frames()
    {
        using WorkFolder work = new();
        await using Run run = Started(work, "rollcall", "--simulate", "--fault", "reverse contact.1.diode", "--plan", Plan(work));
        await Play(run);
        Assert.Equal(1, await run.End());
        while (await run.Next(Enough) is not null)
        {
        }

        Assert.Contains(run.Lines, line => line.Contains("The diode of the contact of POINTS for LOOP is the wrong way round", StringComparison.Ordinal));
        Assert.Contains(run.Lines, line => line == "7 of 8 answer.");
    }

    [Theory]
    [InlineData("listen", "--osc", "nowhere")]
    [InlineData("listen", "--mqtt", "a/b")]
    public void Places_that_are_none_are_wrong_use(params string[] arguments)
    {
        using WorkFolder work = new();
        Assert.Equal(2, ProgramRun.Of(work.Full, arguments).Exit);
    }

    [Fact]
    public void Without_pins_it_is_said_what_is_missing()
    {
        using WorkFolder work = new();
        work.Put("pins.json", "{}");
        ProgramRun run = ProgramRun.Of(work.Full, "listen", "127.0.0.1:9", "--plan", "pins.json");
        Assert.Equal(1, run.Exit);
        Assert.Contains("pin-file", run.Error, StringComparison.Ordinal);
    }

    /// <summary>Does what is asked until the roll is through.</summary>
    private static async Task Play(Run run)
    {
        for (string? last = null; ;)
        {
            string? line = await run.Next(last is null ? Patience : Enough);
            if (line is null)
            {
                run.Type(string.Empty);
                last = null;
            }
            else if (line.EndsWith(" answer.", StringComparison.Ordinal))
            {
                return;
            }
            else if (line.Contains("Does the lamp", StringComparison.Ordinal) || line.Contains("Is the light", StringComparison.Ordinal))
            {
                run.Type("y");
            }
            else if (Hands.FirstOrDefault(hand => line.Contains(hand.Key, StringComparison.Ordinal)).Value is { } hands && line != last)
            {
                last = line;
                hands.ToList().ForEach(hand => run.Type($"!{hand}"));
            }
        }
    }

    private static string Plan(WorkFolder work)
    {
        string plan = work.Below("pins.json");
        File.Copy(Path.Combine(AppContext.BaseDirectory, "yard-pins.json"), plan, overwrite: true);
        return plan;
    }

    private static Run Started(WorkFolder work, params string[] arguments)
    {
        Assert.SkipUnless(File.Exists("/usr/bin/node") || File.Exists("/usr/local/bin/node"), "node is missing: the simulator runs in it");
        return new(work.Full, arguments);
    }

    /// <summary>The program, its lines as they come, and a keyboard.</summary>
    private sealed class Run : IAsyncDisposable
    {
        private readonly Process process;
        private readonly Channel<string> coming = Channel.CreateUnbounded<string>();

        public Run(string folder, string[] arguments)
        {
            ProcessStartInfo start = new("dotnet") { WorkingDirectory = folder, RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
            start.ArgumentList.Add(ProgramRun.Program);
            arguments.ToList().ForEach(start.ArgumentList.Add);
            start.Environment["LAMPBLACK_HOME"] = Path.Combine(folder, "own folder");
            process = Process.Start(start)!;
            _ = process.StandardError.ReadToEndAsync();
            _ = Task.Run(async () =>
            {
                while (await process.StandardOutput.ReadLineAsync() is { } line)
                {
                    coming.Writer.TryWrite(line);
                }

                coming.Writer.Complete();
            });
        }

        public List<string> Lines { get; } = [];

        public void Type(string line)
        {
            process.StandardInput.WriteLine(line);
            process.StandardInput.Flush();
        }

        /// <summary>The next line; null where none came in time.</summary>
        public async Task<string?> Next(TimeSpan patience)
        {
            using CancellationTokenSource end = new(patience);
            try
            {
                string line = await coming.Reader.ReadAsync(end.Token);
                Lines.Add(line);
                return line;
            }
            catch (Exception late) when (late is OperationCanceledException or ChannelClosedException)
            {
                return null;
            }
        }

        public async Task<string> Until(string text)
        {
            while (await Next(Patience) is { } line)
            {
                if (line.Contains(text, StringComparison.Ordinal))
                {
                    return line;
                }
            }

            throw new TimeoutException($"'{text}' did not come; what came: {string.Join('\n', Lines)}");
        }

        /// <summary>As a power cut would.</summary>
        public void Kill()
        {
            process.Kill();
            process.WaitForExit();
        }

        public async Task<int> Stop()
        {
            using Process kill = Process.Start("kill", ["-INT", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]);
            await kill.WaitForExitAsync();
            return await End();
        }

        public async Task<int> End()
        {
            await process.WaitForExitAsync().WaitAsync(Patience);
            return process.ExitCode;
        }

        public async ValueTask DisposeAsync()
        {
            if (!process.HasExited)
            {
                process.Kill(entireProcessTree: true);
                await process.WaitForExitAsync();
            }

            process.Dispose();
        }
    }
}
