using System.Collections.Immutable;
using System.IO;
using Lampblack.Host;
using Lampblack.Jobs;

namespace Lampblack.Cli.Commands;

/// <summary>Writes the sheets that tell about a printer into a folder of their own.</summary>
internal static class SheetFolder
{
    /// <summary>Writes the files; an older sheet's that are not made any more are removed.</summary>
    /// <param name="call">The call.</param>
    /// <param name="folder">The folder.</param>
    /// <param name="files">The files.</param>
    /// <exception cref="FileProblemException">The folder holds the sheets of a desk, which must not be removed, or cannot be written.</exception>
    internal static OutputWriting Write(Call call, string folder, ImmutableArray<OutputFile> files)
    {
        if (File.Exists(Path.Combine(folder, "report.json")))
        {
            throw new FileProblemException($"'{folder}' holds the sheets of a desk; name another folder with -o.");
        }

        using OutputFolder place = OutputFolder.Open(folder, OutputFolder.UsualPatience, () => call.Terminal.Log($"waiting for {folder}"), call.Cancellation);
        return place.Write(files, call.Cancellation);
    }
}
