using System;
using System.Threading;
using BenchmarkDotNet.Attributes;
using Lampblack.Jobs;

namespace Lampblack.Bench;

/// <summary>From a desk's text to all files in memory, in a warm process; bench/measure.sh measures whole cold processes.</summary>
public class WholeBuilds
{
    private readonly IProgress<string> _silent = new Silent();

    /// <summary>Dome desk, sheets only.</summary>
    [Benchmark]
    public int DomeDeskPrint() => Build(Desks.Dome, BuildParts.Print);

    /// <summary>Dome desk, everything.</summary>
    [Benchmark]
    public int DomeDeskAll() => Build(Desks.Dome, BuildParts.All);

    /// <summary>400 controls, sheets only.</summary>
    [Benchmark]
    public int ManyControlsPrint() => Build(Desks.Many, BuildParts.Print);

    /// <summary>400 controls, everything.</summary>
    [Benchmark]
    public int ManyControlsAll() => Build(Desks.Many, BuildParts.All);

    private int Build(byte[] toml, BuildParts parts)
    {
        var result = Jobs.Build.Run(Desks.Source(toml), new("A4", "option", Parts: parts), _silent, CancellationToken.None);
        return result.Files.Length > 0 ? result.Files.Length : throw new InvalidOperationException("the desk does not build");
    }

    private sealed class Silent : IProgress<string>
    {
        public void Report(string value)
        {
        }
    }
}
