using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>One exchange of an earlier build's files for new ones, in a folder that is locked.</summary>
internal sealed class FileExchange
{
    private readonly string folder;
    private readonly ImmutableArray<Target> targets;
    private readonly ImmutableArray<ManifestEntry> earlier;
    private readonly ILookup<string, string> owned;
    private readonly List<Finding> findings = [];

    /// <summary>Checks the files and reads what earlier builds left.</summary>
    /// <param name="folder">The folder's real path.</param>
    /// <param name="files">All files of the build.</param>
    internal FileExchange(string folder, IReadOnlyList<OutputFile> files)
    {
        this.folder = folder;
        targets = Check(folder, files);
        earlier = Manifest.Read(Path.Combine(folder, Manifest.FileName)) ?? [];
        ImmutableArray<ManifestEntry> pending = Manifest.Read(JournalPath) ?? [];

        // Names are compared without case, because a file system may do so too: "Front.pdf" of an earlier build is then in the place of "front.pdf".
        earlier = [.. earlier.Concat(pending).Distinct()];
        owned = earlier.ToLookup(entry => entry.Path, entry => entry.Sha256, StringComparer.OrdinalIgnoreCase);
    }

    private string JournalPath => Path.Combine(folder, Manifest.PendingName);

    private sealed record Target(OutputFile File, string FullPath, string Sha256);

    /// <summary>Writes aside, then exchanges.</summary>
    /// <param name="at">Told which file is being worked on, for messages.</param>
    /// <param name="cancellation">Stops the work before the exchange.</param>
    internal OutputWriting Run(Action<string> at, CancellationToken cancellation)
    {
        SweepLitter();
        ImmutableArray<string> stale = Stale();

        // A file that is to be taken away under another case may be the very same file, where the file system ignores case: it is written anew.
        ImmutableArray<Target> unchanged =
            [.. targets.Where(target => HoldsAlready(target) && !stale.Contains(target.File.Path, StringComparer.OrdinalIgnoreCase))];
        ImmutableArray<Target> changed = [.. targets.Except(unchanged)];
        bool hadJournal = File.Exists(JournalPath);
        List<(string Temporary, Target Target)> fresh = [];
        List<string> newFolders = [];
        Exchange exchange = new();
        try
        {
            foreach (Target target in changed)
            {
                cancellation.ThrowIfCancellationRequested();
                at(target.File.Path);
                string place = PlaceFor(target, newFolders);
                fresh.Add((TemporaryFiles.Write(place, target.File.Bytes), target));
            }

            cancellation.ThrowIfCancellationRequested();
            WriteJournal();
            foreach (Target target in changed)
            {
                at(target.File.Path);
                KeepForeign(target, exchange);
            }

            foreach (string path in stale)
            {
                at(path);
                exchange.TakeAway(FullPath(path));
            }

            foreach ((string temporary, Target target) in fresh.OrderBy(pair => pair.Target.File.Path == Manifest.FileName))
            {
                at(target.File.Path);
                exchange.Put(temporary, target.FullPath);
            }
        }
        catch
        {
            if (exchange.TakeBack() && !hadJournal)
            {
                TemporaryFiles.Remove(JournalPath);
            }

            fresh.ForEach(pair => TemporaryFiles.Remove(pair.Temporary));
            newFolders.AsEnumerable().Reverse().ToList().ForEach(RemoveIfEmpty);
            throw;
        }

        exchange.Keep();
        TemporaryFiles.Remove(JournalPath);
        foreach (string path in stale)
        {
            RemoveEmptyFolders(path);
        }

        return new([.. changed.Select(Name)], [.. unchanged.Select(Name)], stale, [.. findings]);

        static string Name(Target target) => target.File.Path;
    }

    private static ImmutableArray<Target> Check(string folder, IReadOnlyList<OutputFile> files)
    {
        ImmutableArray<Target>.Builder targets = ImmutableArray.CreateBuilder<Target>();
        HashSet<string> names = new(StringComparer.OrdinalIgnoreCase);
        foreach (OutputFile file in files)
        {
            if (RelativeName.Problem(file.Path, out IReadOnlyList<string> parts) is { } problem)
            {
                throw new ArgumentException($"An output's name '{file.Path}' {problem}.", nameof(files));
            }

            if (parts[0].StartsWith(".lampblack-", StringComparison.OrdinalIgnoreCase) || string.Join('/', parts) != file.Path || !names.Add(file.Path))
            {
                throw new ArgumentException($"An output's name '{file.Path}' is reserved, not in its plain form, or stands twice.", nameof(files));
            }

            targets.Add(new(file, Path.Combine(folder, Path.Combine([.. parts])), Manifest.HashOf(file.Bytes)));
        }

        // A file that the manifest does not list would be a stranger to the next build and never be replaced.
        OutputFile? manifest = files.FirstOrDefault(file => file.Path == Manifest.FileName);
        HashSet<ManifestEntry> listed = [.. manifest is null ? [] : Manifest.Parse(manifest.Bytes.AsMemory()) ?? []];
        foreach (Target target in targets.Where(target => target.File != manifest))
        {
            if (!listed.Contains(new(target.File.Path, target.Sha256)))
            {
                throw new ArgumentException($"The manifest does not list '{target.File.Path}' with its hash.", nameof(files));
            }
        }

        return targets.ToImmutable();
    }

    // Names from a manifest are checked when it is read, so this cannot leave the folder by its text; Wanders looks for links.
    private string FullPath(string relative) => Path.Combine(folder, Path.Combine(relative.Split('/')));

    private bool Wanders(string relative)
    {
        string here = folder;
        foreach (string part in relative.Split('/')[..^1])
        {
            here = Path.Combine(here, part);
            if (new FileInfo(here).LinkTarget is not null)
            {
                return true;
            }
        }

        return false;
    }

    private void SweepLitter()
    {
        TemporaryFiles.Sweep(folder);
        IEnumerable<string> below = earlier.Select(entry => entry.Path).Concat(targets.Select(target => target.File.Path));
        foreach (string relative in below.Where(path => path.Contains('/', StringComparison.Ordinal) && !Wanders(path)).ToArray())
        {
            TemporaryFiles.Sweep(Path.GetDirectoryName(FullPath(relative))!);
        }
    }

    private bool HoldsAlready(Target target) =>
        !Wanders(target.File.Path)
        && new FileInfo(target.FullPath) is { Exists: true, LinkTarget: null } info
        && info.Length == target.File.Bytes.Length
        && Manifest.HashOf(target.FullPath) == target.Sha256;

    private bool IsOurs(string relative)
    {
        string path = FullPath(relative);
        if (Wanders(relative) || new FileInfo(path) is not { Exists: true, LinkTarget: null })
        {
            return false;
        }

        return relative == Manifest.FileName
            ? Manifest.Read(path) is not null
            : owned.Contains(relative) && owned[relative].Contains(Manifest.HashOf(path), StringComparer.Ordinal);
    }

    private ImmutableArray<string> Stale()
    {
        HashSet<string> made = new(targets.Select(target => target.File.Path), StringComparer.Ordinal);
        ImmutableArray<string>.Builder stale = ImmutableArray.CreateBuilder<string>();
        foreach (string path in earlier.Select(entry => entry.Path).Distinct(StringComparer.Ordinal).Where(path => !made.Contains(path)))
        {
            if (IsOurs(path))
            {
                stale.Add(path);
            }
            else if (RealPath.IsTaken(FullPath(path)))
            {
                findings.Add(Finding.Note(
                    "output-left",
                    $"'{path}' belongs to an earlier build and is no longer made, but it was changed since; it is left as it is.",
                    "Delete it yourself if you do not need it.",
                    item: path));
            }
        }

        return stale.ToImmutable();
    }

    private string PlaceFor(Target target, List<string> newFolders)
    {
        string here = folder;
        foreach (string part in target.File.Path.Split('/')[..^1])
        {
            here = Path.Combine(here, part);
            if (new FileInfo(here).LinkTarget is not null || File.Exists(here))
            {
                throw new FileProblemException($"'{here}' is a file or a link where the output needs a folder; move it away. Nothing was changed.");
            }

            if (!Directory.Exists(here))
            {
                Directory.CreateDirectory(here);
                newFolders.Add(here);
            }
        }

        return Directory.Exists(target.FullPath) && new FileInfo(target.FullPath).LinkTarget is null
            ? throw new FileProblemException($"'{target.FullPath}' is a folder where the output needs a file; move it away. Nothing was changed.")
            : here;
    }

    private void WriteJournal()
    {
        IEnumerable<ManifestEntry> fresh = targets.Select(target => new ManifestEntry(target.File.Path, target.Sha256));
        string temporary = TemporaryFiles.Write(folder, Manifest.Journal(earlier.Concat(fresh).Distinct()));
        File.Move(temporary, JournalPath, overwrite: true);
    }

    private void KeepForeign(Target target, Exchange exchange)
    {
        if (!RealPath.IsTaken(target.FullPath) || IsOurs(target.File.Path))
        {
            return;
        }

        int number = 1;
        string kept;
        do
        {
            kept = string.Create(CultureInfo.InvariantCulture, $"{target.FullPath}.kept-{number++}");
        }
        while (RealPath.IsTaken(kept));

        exchange.Rename(target.FullPath, kept);
        findings.Add(Finding.Warn(
            "output-kept",
            $"'{target.File.Path}' was in the way and is not what an earlier build wrote; it is kept as '{Path.GetFileName(kept)}'.",
            "Take what you need from it; a build never changes it again.",
            item: target.File.Path));
    }

    private void RemoveEmptyFolders(string relative)
    {
        string[] parts = relative.Split('/');
        for (int count = parts.Length - 1; count > 0; count--)
        {
            RemoveIfEmpty(FullPath(string.Join('/', parts[..count])));
        }
    }

    private static void RemoveIfEmpty(string path)
    {
        try
        {
            Directory.Delete(path, recursive: false);
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            // Somebody else's files are in it.
        }
    }
}
