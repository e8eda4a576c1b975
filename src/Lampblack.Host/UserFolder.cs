using System;
using System.IO;

namespace Lampblack.Host;

/// <summary>The user's own folder for what Lampblack keeps between desks.</summary>
public static class UserFolder
{
    /// <summary>The environment variable that puts the folder elsewhere.</summary>
    public const string Variable = "LAMPBLACK_HOME";

    /// <summary>
    /// The folder's path: <c>LAMPBLACK_HOME</c> where it is set, else <c>lampblack</c> in the platform's place for a user's data
    /// (XDG_DATA_HOME or ~/.local/share on Linux, Library/Application Support on macOS, AppData\Local on Windows). It need not exist.
    /// </summary>
    /// <param name="environment">Gives an environment variable's value, or null.</param>
    public static string Locate(Func<string, string?> environment)
    {
        ArgumentNullException.ThrowIfNull(environment);
        if (environment(Variable) is { Length: > 0 } named)
        {
            return Path.GetFullPath(named);
        }

        string data = Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify);

        // An account without a home folder has no such place; the temporary folder is better than the current one.
        return Path.Combine(data.Length > 0 ? data : Path.GetTempPath(), "lampblack");
    }

    /// <summary>Why the folder cannot be written, as the end of a sentence; null where it can. Makes the folder.</summary>
    /// <param name="folder">The folder.</param>
    public static string? Problem(string folder)
    {
        ArgumentNullException.ThrowIfNull(folder);
        try
        {
            Directory.CreateDirectory(folder);
            string probe = Path.Combine(folder, TemporaryFiles.NewName());
            File.WriteAllBytes(probe, [1]);
            File.Delete(probe);
            return null;
        }
        catch (Exception exception) when (FileProblemException.IsRefusal(exception))
        {
            return FileProblemException.Reason(exception);
        }
    }
}
