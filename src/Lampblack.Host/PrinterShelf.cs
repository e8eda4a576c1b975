using System;
using System.Collections.Immutable;
using System.Globalization;
using System.IO;
using System.Linq;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Jobs;
using Lampblack.Printers;

namespace Lampblack.Host;

/// <summary>A printer file as it lies on the disk.</summary>
/// <param name="FilePath">Where it lies.</param>
/// <param name="Name">By which name it is asked for.</param>
/// <param name="Reading">What it says, and what is wrong with it.</param>
/// <param name="IsChanged">Whether it was written just now.</param>
public sealed record ShelvedPrinter(string FilePath, string Name, Checked<PrinterFile> Reading, bool IsChanged = false);

/// <summary>
/// The printer files of a user, by name in a folder of their own or by path. Each change holds a lock, reads the file anew, writes aside and renames: of two
/// programs that learn at once, none loses what the other learned.
/// </summary>
/// <param name="folder">The folder of the files that are asked for by name; it need not exist.</param>
public sealed class PrinterShelf(string folder)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    /// <summary>The shelf of this machine's user.</summary>
    public static PrinterShelf Here() => new(Path.Combine(UserFolder.Locate(Environment.GetEnvironmentVariable), "printers"));

    /// <summary>Why a word can't be the name of a printer, as the end of a sentence; null where it can, or where it is a path that ends in <c>.toml</c>.</summary>
    /// <param name="nameOrPath">What the maker wrote.</param>
    public static string? NameProblem(string nameOrPath)
    {
        ArgumentNullException.ThrowIfNull(nameOrPath);
        return PrinterName.IsPath(nameOrPath) ? null : PrinterName.Problem(nameOrPath);
    }

    /// <summary>The file of a name, or the path itself.</summary>
    /// <param name="nameOrPath">A name, or a path that ends in <c>.toml</c>.</param>
    /// <exception cref="FileProblemException">It is neither.</exception>
    public string PathOf(string nameOrPath) => NameProblem(nameOrPath) is { } problem
        ? throw new FileProblemException($"The printer's name '{nameOrPath}' {problem}.")
        : Guarded(nameOrPath, () => PrinterName.IsPath(nameOrPath) ? nameOrPath : PrinterName.FileOf(folder, nameOrPath));

    /// <summary>Reads a printer file.</summary>
    /// <param name="nameOrPath">A name, or a path that ends in <c>.toml</c>.</param>
    /// <exception cref="FileProblemException">There is none, or it cannot be read.</exception>
    public ShelvedPrinter Read(string nameOrPath)
    {
        string path = PathOf(nameOrPath);
        return new(path, NameOf(path), ReadFile(path));
    }

    /// <summary>Every printer file that can be asked for by name, in the order of the names; one that cannot be read has a finding that says so.</summary>
    public ImmutableArray<ShelvedPrinter> All() => Guarded(folder, () => Directory.Exists(folder)
        ? Directory.EnumerateFiles(folder, "*" + PrinterName.Ending)
            .Where(path => PrinterName.Problem(Path.GetFileNameWithoutExtension(path)) is null)
            .Order(StringComparer.Ordinal)
            .Select(path => new ShelvedPrinter(path, NameOf(path), ReadOrTell(path)))
            .ToImmutableArray()
        : []);

    /// <summary>Puts a new printer file on the shelf; one that is there is never overwritten.</summary>
    /// <param name="nameOrPath">A name, or a path that ends in <c>.toml</c>.</param>
    /// <param name="file">What it shall say.</param>
    /// <exception cref="FileProblemException">The name is taken, or the file cannot be written.</exception>
    public ShelvedPrinter Create(string nameOrPath, PrinterFile file) => Locked(nameOrPath, mayMakeFolder: true, null, CancellationToken.None, path =>
    {
        RelativeName.RefuseDevices(path);
        if (RealPath.IsTaken(path))
        {
            throw new FileProblemException($"'{path}' is already there and is not overwritten; take another name, or 'lampblack printer forget' first.");
        }

        return Store(path, file, []);
    });

    /// <summary>Changes a printer file while nobody else does: it is read anew, changed, and put in place whole.</summary>
    /// <param name="nameOrPath">A name, or a path that ends in <c>.toml</c>.</param>
    /// <param name="change">Gives the new contents; with a <c>stop</c> finding nothing is written.</param>
    /// <param name="waiting">Called once when there is another program to wait for.</param>
    /// <param name="cancellation">Stops the waiting for another program.</param>
    /// <returns>The file as it is now, with all findings: of reading, and of the change.</returns>
    /// <exception cref="FileProblemException">There is none, or it cannot be read or written.</exception>
    public ShelvedPrinter Change(
        string nameOrPath, Func<PrinterFile, Checked<PrinterFile>> change, Action? waiting = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(change);
        return Locked(nameOrPath, mayMakeFolder: false, waiting, cancellation, path =>
        {
            Checked<PrinterFile> before = ReadFile(path);
            if (before.HasStop)
            {
                return new(path, NameOf(path), before);
            }

            Checked<PrinterFile> after = change(before.Value);
            ImmutableArray<Finding> findings = [.. before.Findings, .. after.Findings];
            return after.HasStop ? new(path, NameOf(path), new(before.Value, findings)) : Store(path, after.Value, findings);
        });
    }

    /// <summary>Copies a printer file to a place of the maker's choice, where nothing is overwritten.</summary>
    /// <param name="nameOrPath">A name, or a path that ends in <c>.toml</c>.</param>
    /// <param name="target">The new file.</param>
    /// <exception cref="FileProblemException">There is none, the place is taken, or the file cannot be written.</exception>
    public ShelvedPrinter Export(string nameOrPath, string target)
    {
        ShelvedPrinter printer = Read(nameOrPath);
        if (!printer.Reading.HasStop)
        {
            RelativeName.RefuseDevices(target);
            Guarded(target, () =>
            {
                if (RealPath.IsTaken(target))
                {
                    throw new FileProblemException($"'{target}' is already there and is not overwritten; name another file.");
                }

                using FileStream stream = new(target, FileMode.CreateNew, FileAccess.Write, FileShare.None);
                stream.Write(PrinterFiles.Write(printer.Reading.Value).AsSpan());
                return true;
            });
        }

        return printer;
    }

    /// <summary>Takes a printer file from elsewhere onto the shelf; with a <c>stop</c> finding, or where the name is taken, it is not taken.</summary>
    /// <param name="file">The file.</param>
    /// <param name="name">The name it shall have here; null for the file's own.</param>
    /// <exception cref="FileProblemException">The name is taken or no name, or a file cannot be read or written.</exception>
    public ShelvedPrinter Import(string file, string? name)
    {
        ArgumentNullException.ThrowIfNull(file);
        Checked<PrinterFile> reading = ReadFile(file);
        string own = name ?? Path.GetFileNameWithoutExtension(file);
        if (PrinterName.IsPath(own) || PrinterName.Problem(own) is not null)
        {
            throw new FileProblemException($"'{own}' {PrinterName.Problem(own) ?? "is a path"}: say with --as which name the printer shall have here.");
        }

        return reading.HasStop ? new(file, own, reading) : Create(own, reading.Value) with { Reading = reading };
    }

    /// <summary>Forgets something that was learned, or the whole file. What was there is kept beside it under the name <c>NAME.toml.forgotten</c>.</summary>
    /// <param name="nameOrPath">A name, or a path that ends in <c>.toml</c>.</param>
    /// <param name="lore">What to forget; null for the whole file.</param>
    /// <returns>The file that keeps what was there, and what is left; a file with a <c>stop</c> finding can only be forgotten whole.</returns>
    /// <exception cref="FileProblemException">There is none, or it cannot be written.</exception>
    public (string KeptPath, ShelvedPrinter Printer) Forget(string nameOrPath, PrinterLore? lore) => Locked(nameOrPath, mayMakeFolder: false, null, CancellationToken.None, path =>
    {
        Checked<PrinterFile> reading = ReadFile(path);
        string kept = path + ".forgotten";
        for (int number = 2; RealPath.IsTaken(kept); number++)
        {
            kept = string.Create(CultureInfo.InvariantCulture, $"{path}.forgotten-{number}");
        }

        if (lore is not { } one)
        {
            File.Move(path, kept, overwrite: false);
            return (kept, new(path, NameOf(path), reading, IsChanged: true));
        }

        if (reading.HasStop)
        {
            return (string.Empty, new ShelvedPrinter(path, NameOf(path), reading));
        }

        File.Copy(path, kept, overwrite: false);
        return (kept, Store(path, PrinterFiles.Forget(reading.Value, one), reading.Findings));
    });

    private static string NameOf(string path) => Path.GetFileNameWithoutExtension(path);

    private static Checked<PrinterFile> ReadFile(string path)
    {
        FileReading reading = BoundedReading.Read(path, PrinterFiles.LimitBytes);
        return reading.Problem is null
            ? PrinterFiles.Read(Path.GetFileName(path), reading.Bytes)
            : throw new FileProblemException($"The printer file '{path}' {reading.Problem}.{(File.Exists(path) ? string.Empty : " 'lampblack printer new NAME' starts one, 'lampblack printer list' shows those that are there.")}");
    }

    private static Checked<PrinterFile> ReadOrTell(string path)
    {
        try
        {
            return ReadFile(path);
        }
        catch (FileProblemException problem)
        {
            return PrinterFiles.Read(Path.GetFileName(path), []) with
            {
                Findings = [Finding.Stop("printer-unreadable", problem.Message, "look at the file, or move it away", item: NameOf(path))],
            };
        }
    }

    private static ShelvedPrinter Store(string path, PrinterFile file, ImmutableArray<Finding> findings)
    {
        ImmutableArray<byte> bytes = PrinterFiles.Write(file);
        Checked<PrinterFile> back = PrinterFiles.Read(Path.GetFileName(path), bytes);
        if (back.HasStop)
        {
            // Whatever is put in place can be read again.
            return new(path, NameOf(path), new(file, [.. findings, .. back.Findings]));
        }

        if (bytes.Length > PrinterFiles.LimitBytes)
        {
            throw new FileProblemException($"'{path}' would become larger than the 1 MB that are read; forget what is old first: 'lampblack printer forget'.");
        }

        if (File.Exists(path) && File.ReadAllBytes(path).AsSpan().SequenceEqual(bytes.AsSpan()))
        {
            return new(path, NameOf(path), new(file, findings));
        }

        string aside = TemporaryFiles.Write(Path.GetDirectoryName(path)!, bytes);
        try
        {
            File.Move(aside, path, overwrite: true);
        }
        catch
        {
            TemporaryFiles.Remove(aside);
            throw;
        }

        return new(path, NameOf(path), new(file, findings), IsChanged: true);
    }

    private static T Guarded<T>(string what, Func<T> work)
    {
        try
        {
            return work();
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            throw new FileProblemException($"Cannot use '{what}': {FileProblemException.Reason(exception)}. Nothing was changed.", exception);
        }
    }

    private T Locked<T>(string nameOrPath, bool mayMakeFolder, Action? waiting, CancellationToken cancellation, Func<string, T> work)
    {
        string written = PathOf(nameOrPath);
        return Guarded(written, () =>
        {
            string path = RealPath.Of(written);
            string place = Path.GetDirectoryName(path)!;
            if (!mayMakeFolder && !File.Exists(path))
            {
                _ = ReadFile(written);
            }

            using FolderLock held = FolderLock.Take(place, Patience, waiting ?? (() => { }), cancellation)
                ?? throw new FileProblemException($"Another program is changing files in '{place}'; try again when it is done.");
            TemporaryFiles.Sweep(place);
            return work(path);
        });
    }
}
