using System;
using System.Collections.Generic;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Text;
using System.Text.Json;
using System.Xml.Linq;

namespace Lampblack.Tests.Notices;

/// <summary>One package that becomes part of the program.</summary>
internal sealed record NoticedPackage(string Name, string Version, string Licence, string Holder, string Address);

/// <summary>Makes THIRD-PARTY-NOTICES.md from the lock files of the sources and what each package says of itself.</summary>
internal static class ThirdPartyNotices
{
    internal const string FileName = "THIRD-PARTY-NOTICES.md";

    // Analyzers work while compiling and leave nothing in the program.
    private static readonly string[] OnlyForBuilding = ["Microsoft.CodeAnalysis.BannedApiAnalyzers"];

    internal static IReadOnlyList<NoticedPackage> Packages(string root) =>
    [
        .. Directory.EnumerateFiles(Path.Combine(root, "src"), "packages.lock.json", SearchOption.AllDirectories)
            .SelectMany(NuGetEntries)
            .Distinct()
            .Where(entry => !OnlyForBuilding.Contains(entry.Name, StringComparer.OrdinalIgnoreCase))
            .Select(entry => FromNuspec(entry.Name, entry.Version))
            .OrderBy(package => package.Name, StringComparer.OrdinalIgnoreCase)
            .ThenBy(package => package.Version, StringComparer.Ordinal),
        .. NpmPackages(Path.Combine(root, "fonts")).OrderBy(package => package.Name, StringComparer.Ordinal),
    ];

    internal static string Text(IReadOnlyList<NoticedPackage> packages)
    {
        StringBuilder text = new();
        text.Append("# Third-party notices\n\n");
        text.Append("Packages that become part of Lampblack when it is built. None of them is kept in this repository; their registries deliver them, pinned by the lock files.\n");
        text.Append("This page is made from those lock files and from what each package says of itself; CONTRIBUTING.md tells how.\n\n");
        text.Append("| package | version | licence | holder | address |\n|---|---|---|---|---|\n");
        foreach (NoticedPackage package in packages)
        {
            text.Append(CultureInfo.InvariantCulture, $"| {package.Name} | {package.Version} | {Cell(package.Licence)} | {Cell(package.Holder)} | {Cell(package.Address)} |\n");
        }

        return text.ToString();
    }

    /// <summary>Names and versions that a NuGet lock file pins, projects of our own left out.</summary>
    internal static IEnumerable<(string Name, string Version)> NuGetEntries(string lockFile)
    {
        using JsonDocument document = JsonDocument.Parse(File.ReadAllBytes(lockFile));
        return
        [
            .. document.RootElement.GetProperty("dependencies").EnumerateObject()
                .SelectMany(framework => framework.Value.EnumerateObject())
                .Where(entry => entry.Value.GetProperty("type").GetString() != "Project")
                .Select(entry => (entry.Name, entry.Value.GetProperty("resolved").GetString()!)),
        ];
    }

    private static NoticedPackage FromNuspec(string name, string version)
    {
        string cache = Environment.GetEnvironmentVariable("NUGET_PACKAGES") is { Length: > 0 } named
            ? named
            : Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget", "packages");
        string id = name.ToLowerInvariant();
        XElement metadata = XDocument.Load(Path.Combine(cache, id, version, id + ".nuspec")).Root!.Elements().Single(element => element.Name.LocalName == "metadata");
        XElement? licence = Child(metadata, "license");
        string licenceText = licence is null
            ? Child(metadata, "licenseUrl")?.Value ?? "not stated"
            : licence.Attribute("type")?.Value == "expression" ? licence.Value
            : $"{(File.ReadLines(Path.Combine(cache, id, version, licence.Value)).First() == "The MIT License (MIT)" ? "MIT" : "its own")} ({licence.Value} in the package)";
        return new(
            name,
            version,
            licenceText,
            Child(metadata, "copyright")?.Value ?? Child(metadata, "authors")?.Value ?? string.Empty,
            Child(metadata, "projectUrl")?.Value ?? string.Empty);
    }

    private static IEnumerable<NoticedPackage> NpmPackages(string fonts)
    {
        string lockFile = Path.Combine(fonts, "package-lock.json");
        if (!File.Exists(lockFile))
        {
            return [];
        }

        const string Prefix = "node_modules/";
        using JsonDocument document = JsonDocument.Parse(File.ReadAllBytes(lockFile));
        return
        [
            .. document.RootElement.GetProperty("packages").EnumerateObject()
                .Where(entry => entry.Name.StartsWith(Prefix, StringComparison.Ordinal))
                .Select(entry => FromNpm(fonts, entry.Name, entry.Name[Prefix.Length..], entry.Value)),
        ];
    }

    private static NoticedPackage FromNpm(string fonts, string folder, string name, JsonElement locked)
    {
        string manifest = Path.Combine(fonts, folder, "package.json");
        using JsonDocument document = JsonDocument.Parse(File.Exists(manifest) ? File.ReadAllBytes(manifest) : "{}"u8.ToArray());

        // Font packages carry the licence and the copyright line of the font itself in a file of their own.
        string fontLicence = Path.Combine(fonts, folder, "LICENSE_FONT");
        string? copyright = File.Exists(fontLicence) ? File.ReadLines(fontLicence).FirstOrDefault(line => line.StartsWith("Copyright", StringComparison.Ordinal)) : null;
        bool isOpenFont = File.Exists(fontLicence) && File.ReadAllText(fontLicence).Contains("SIL OPEN FONT LICENSE Version 1.1", StringComparison.OrdinalIgnoreCase);
        string licence = Text(locked, "license") ?? Text(document.RootElement, "license") ?? "not stated";
        return new(
            name,
            Text(locked, "version") ?? string.Empty,
            isOpenFont ? $"{licence}; the font: OFL-1.1 (LICENSE_FONT in the package)" : licence,
            copyright ?? string.Empty,
            Text(document.RootElement, "homepage") ?? string.Empty);
    }

    private static string? Text(JsonElement parent, string name) =>
        parent.TryGetProperty(name, out JsonElement value) && value.ValueKind == JsonValueKind.String ? value.GetString() : null;

    private static XElement? Child(XElement parent, string name) => parent.Elements().FirstOrDefault(element => element.Name.LocalName == name);

    private static string Cell(string text) => string.Join(' ', text.Replace("|", "/", StringComparison.Ordinal).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
