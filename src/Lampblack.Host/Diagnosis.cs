using System;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Runtime.InteropServices;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>How one thing of the machine stands.</summary>
public enum Condition
{
    /// <summary>As it should be.</summary>
    Fine,

    /// <summary>Missing or odd, but nothing that a build needs.</summary>
    Optional,

    /// <summary>Lampblack cannot do its work with this.</summary>
    Bad,
}

/// <summary>One thing that was looked at.</summary>
/// <param name="Name">What it is, in a word or two.</param>
/// <param name="Condition">How it stands.</param>
/// <param name="Text">What was found, and what to do where it is not fine.</param>
public sealed record DiagnosisLine(string Name, Condition Condition, string Text);

/// <summary>Looks at the machine: whether everything that Lampblack stands on is there.</summary>
public static class Diagnosis
{
    /// <summary>Looks at everything.</summary>
    /// <param name="version">The program's version.</param>
    /// <param name="userFolder">The user's folder.</param>
    public static ImmutableArray<DiagnosisLine> Run(string version, string userFolder) =>
    [
        new("lampblack", Condition.Fine, $"version {version}, in {AppContext.BaseDirectory}"),
        new("runtime", Condition.Fine, $"{RuntimeInformation.FrameworkDescription}, {RuntimeInformation.RuntimeIdentifier}"),
        new("system", Condition.Fine, RuntimeInformation.OSDescription),
        new("usual paper", Condition.Fine, $"{UsualPaper.Here()} (from the region; --paper says otherwise)"),
        Fonts(),
        Native("drawing", "libSkiaSharp"),
        Native("lettering", "libHarfBuzzSharp"),
        Folder(userFolder),
        Program("gs", "ghostscript"),
        Program("mutool", "mupdf-tools"),
        Program("qpdf", "qpdf"),
        Program("pdftoppm", "poppler-utils"),
    ];

    private static DiagnosisLine Fonts()
    {
        string[] fonts =
        [
            .. typeof(Build).Assembly.GetManifestResourceNames()
                .Where(name => name.EndsWith(".ttf", StringComparison.OrdinalIgnoreCase) || name.EndsWith(".otf", StringComparison.OrdinalIgnoreCase)),
        ];
        return fonts.Length > 0
            ? new("fonts", Condition.Fine, $"{fonts.Length} built in")
            : new("fonts", Condition.Bad, "none built in: legends cannot be lettered. Build Lampblack again with npm installed.");
    }

    private static DiagnosisLine Native(string name, string library)
    {
        if (NativeLibrary.TryLoad(library, typeof(Build).Assembly, searchPath: null, out IntPtr handle))
        {
            NativeLibrary.Free(handle);
            return new(name, Condition.Fine, $"{library} loads");
        }

        return new(name, Condition.Bad, $"{library} does not load on this system ({RuntimeInformation.RuntimeIdentifier}).");
    }

    private static DiagnosisLine Folder(string folder) =>
        UserFolder.Problem(folder) is { } problem
            ? new("own folder", Condition.Bad, $"{folder} cannot be written: {problem}. Set {UserFolder.Variable} to another folder.")
            : new("own folder", Condition.Fine, folder);

    private static DiagnosisLine Program(string program, string package)
    {
        string[] folders = (Environment.GetEnvironmentVariable("PATH") ?? string.Empty).Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries);
        string[] names = OperatingSystem.IsWindows() ? [program + ".exe", program + ".cmd"] : [program];
        bool found = folders.Any(folder => names.Any(name => File.Exists(Path.Combine(folder, name))));
        return new(program, found ? Condition.Fine : Condition.Optional, found ? "there (only the tests use it)" : $"not there; only the tests use it (package {package})");
    }
}
