using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;

namespace Lampblack.Tests.Peers.Avr;

/// <summary>What happened on a bench.</summary>
/// <param name="Frames">Sound frames in their order.</param>
/// <param name="Faults">Broken frames, gaps in the numbering, crashes.</param>
/// <param name="Lines">All other lines, split at blanks.</param>
internal sealed record BenchLog(ImmutableArray<BenchFrame> Frames, ImmutableArray<string> Faults, ImmutableArray<ImmutableArray<string>> Lines)
{
    public static BenchLog Read(string output)
    {
        var frames = ImmutableArray.CreateBuilder<BenchFrame>();
        var faults = ImmutableArray.CreateBuilder<string>();
        var lines = ImmutableArray.CreateBuilder<ImmutableArray<string>>();
        foreach (var line in output.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            ImmutableArray<string> words = [.. line.Trim().Split(' ')];
            if (words[0] is "fault" or "crash")
            {
                faults.Add(line);
            }
            else if (words[0] != "frame")
            {
                lines.Add(words);
            }
            else if (BenchFrame.Read(long.Parse(words[1], CultureInfo.InvariantCulture), Convert.FromHexString(words[2])) is { } frame)
            {
                frames.Add(frame);
            }
            else
            {
                faults.Add($"broken {line}");
            }
        }

        for (var index = 0; index < frames.Count; index++)
        {
            if (frames[index].Sequence != (byte)index)
            {
                faults.Add(FormattableString.Invariant($"frame {index} has number {frames[index].Sequence}"));
                break;
            }
        }

        return new(frames.ToImmutable(), faults.ToImmutable(), lines.ToImmutable());
    }

    public IEnumerable<BenchFrame> Of(FrameType type) => Frames.Where(frame => frame.Type == type);

    /// <summary>Changes of contacts in their order.</summary>
    public IEnumerable<(long Us, int Number, bool Closed)> Contacts() =>
        Of(FrameType.Contact).Select(frame => (frame.Us, frame.Word(0) & 0x7FFF, (frame.Word(0) & 0x8000) != 0));

    /// <summary>The last line that begins with these words.</summary>
    public ImmutableArray<string> Last(params string[] words) =>
        Lines.Last(line => line.Length >= words.Length && words.Select((word, index) => word.Length == 0 || line[index] == word).All(same => same));
}
