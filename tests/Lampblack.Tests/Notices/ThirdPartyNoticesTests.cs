using System;
using System.Collections.Generic;
using System.IO;
using System.Linq;
using Xunit;

namespace Lampblack.Tests.Notices;

public sealed class ThirdPartyNoticesTests
{
    private const string Update = "LAMPBLACK_UPDATE=1 dotnet test --project tests/Lampblack.Tests -- --filter-class \"*ThirdPartyNoticesTests\"";

    [Fact]
    public void The_page_is_in_step_with_the_lock_files()
    {
        string page = Path.Combine(Root(), ThirdPartyNotices.FileName);
        string expected = ThirdPartyNotices.Text(ThirdPartyNotices.Packages(Root()));
        if (Environment.GetEnvironmentVariable("LAMPBLACK_UPDATE") == "1")
        {
            File.WriteAllText(page, expected);
        }

        string actual = File.Exists(page) ? File.ReadAllText(page).ReplaceLineEndings("\n") : string.Empty;
        Assert.True(expected == actual, $"{ThirdPartyNotices.FileName} is out of step. Make it anew with: {Update}\n\n{expected}");
    }

    [Fact]
    public void Every_package_states_its_licence()
    {
        IReadOnlyList<NoticedPackage> packages = ThirdPartyNotices.Packages(Root());
        Assert.NotEmpty(packages);
        Assert.DoesNotContain(packages, package => package.Licence.StartsWith("not stated", StringComparison.Ordinal));
    }

    [Fact]
    public void No_package_has_a_licence_that_would_bind_the_makers_work()
    {
        // Permissive licences only; a new one is read by a person before its name is put here.
        string[] read = ["MIT", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0", "OFL-1.1", "MS-PL"];
        foreach (NoticedPackage package in ThirdPartyNotices.Packages(Root()))
        {
            Assert.True(
                read.Any(licence => package.Licence.Contains(licence, StringComparison.Ordinal)),
                $"{package.Name} {package.Version}: '{package.Licence}' is not among the licences that were read.");
        }
    }

    [Fact]
    public void Every_package_that_a_project_of_the_sources_names_is_on_the_page()
    {
        string page = File.ReadAllText(Path.Combine(Root(), ThirdPartyNotices.FileName));
        string[] named =
        [
            .. Directory.EnumerateFiles(Path.Combine(Root(), "src"), "*.csproj", SearchOption.AllDirectories)
                .SelectMany(project => System.Xml.Linq.XDocument.Load(project).Descendants("PackageReference"))
                .Where(reference => reference.Attribute("PrivateAssets")?.Value != "all")
                .Select(reference => reference.Attribute("Include")!.Value)
                .Distinct(),
        ];
        Assert.Contains("System.CommandLine", named);
        Assert.All(named, name => Assert.Contains($"| {name} |", page, StringComparison.Ordinal));
    }

    private static string Root()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Lampblack.slnx")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new DirectoryNotFoundException("Lampblack.slnx");
    }
}
