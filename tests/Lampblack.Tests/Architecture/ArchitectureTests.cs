using System.Linq;
using Xunit;

namespace Lampblack.Tests.Architecture;

public sealed class ArchitectureTests
{
    [Fact]
    public void Every_source_of_the_core_is_seen_and_bound()
    {
        Assert.NotEmpty(LiveCode.Core.Sources);
        Assert.NotEmpty(LiveCode.Core.Uses);
        Offences.AssertNone(SourceCompiler.Blind(LiveCode.Core.Compilation));
    }

    [Fact]
    public void The_core_keeps_to_the_dependency_table() => Offences.AssertNone(
        DependencyRules.Check(LiveCode.Core.Compilation, LiveCode.Core.Uses, DependencyTable.Read(Repository.Read(DependencyTable.Page))));

    [Fact]
    public void Every_source_of_the_host_is_bound() => Offences.AssertNone(SourceCompiler.Blind(LiveCode.Host.Compilation));

    [Fact]
    public void The_host_uses_jobs_findings_and_quantities_only() => Offences.AssertNone(ShellRules.Check(LiveCode.Host));

    [Fact]
    public void The_shells_use_the_doors_of_the_core_and_the_host_only() => Offences.AssertNone(LiveCode.Shells.SelectMany(shell => ShellRules.Check(shell)));

    [Fact]
    public void Every_source_of_the_shells_is_bound()
    {
        // What binds is judged above in any case; that everything binds can only be asked once the shell's packages are there.
        Assert.SkipUnless(
            LiveCode.Shells.All(shell => Repository.Has($"src/{shell.Name}/obj/project.assets.json")),
            "a shell has not been restored yet: run dotnet restore in the repository's root");
        Offences.AssertNone(LiveCode.Shells.Where(shell => !shell.HasPages).SelectMany(shell => SourceCompiler.Blind(shell.Compilation)));
    }
}
