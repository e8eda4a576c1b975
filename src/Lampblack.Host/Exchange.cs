using System;
using System.Collections.Generic;
using System.IO;

namespace Lampblack.Host;

/// <summary>
/// A row of renamings that is undone as a whole when one of them fails. Each single renaming is atomic in the file system, so that a file is
/// at every moment either the old or the new one.
/// </summary>
internal sealed class Exchange
{
    private readonly Stack<Action> undo = new();
    private readonly List<string> spent = [];

    /// <summary>Gives a file another name.</summary>
    /// <param name="from">Its path.</param>
    /// <param name="to">Its new path, which nobody uses.</param>
    internal void Rename(string from, string to)
    {
        File.Move(from, to, overwrite: false);
        undo.Push(() => File.Move(to, from, overwrite: false));
    }

    /// <summary>Takes a file away; it is only gone for good when everything is <see cref="Keep">kept</see>.</summary>
    /// <param name="path">The file.</param>
    internal void TakeAway(string path)
    {
        string aside = Path.Combine(Path.GetDirectoryName(path)!, TemporaryFiles.NewName());
        Rename(path, aside);
        spent.Add(aside);
    }

    /// <summary>Puts a file in place, over an older one if there is one.</summary>
    /// <param name="fresh">A temporary file in the same folder.</param>
    /// <param name="target">Where it belongs.</param>
    internal void Put(string fresh, string target)
    {
        if (File.Exists(target))
        {
            string aside = Path.Combine(Path.GetDirectoryName(target)!, TemporaryFiles.NewName());
            File.Replace(fresh, target, aside, ignoreMetadataErrors: true);
            undo.Push(() => File.Move(aside, target, overwrite: true));
            spent.Add(aside);
        }
        else
        {
            File.Move(fresh, target, overwrite: false);
            undo.Push(() => File.Delete(target));
        }
    }

    /// <summary>Everything went well: what was replaced or taken away goes for good.</summary>
    internal void Keep()
    {
        spent.ForEach(TemporaryFiles.Remove);
        undo.Clear();
    }

    /// <summary>Puts everything back as it was, the last step first.</summary>
    /// <returns>Whether everything could be put back.</returns>
    internal bool TakeBack()
    {
        bool complete = true;
        while (undo.TryPop(out Action? step))
        {
            try
            {
                step();
            }
            catch (Exception exception) when (FileProblemException.IsRefusal(exception))
            {
                // The other steps are still taken back; the journal lets the next build recognise whatever stayed.
                complete = false;
            }
        }

        return complete;
    }
}
