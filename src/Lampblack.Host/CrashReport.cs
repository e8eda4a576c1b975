using System;
using System.Globalization;
using System.IO;
using System.Runtime.InteropServices;
using System.Text;

namespace Lampblack.Host;

/// <summary>What is written down when the program itself is at fault. It never holds anything of the maker's desk.</summary>
public static class CrashReport
{
    /// <summary>Writes a report into the user's folder, else into the temporary folder.</summary>
    /// <param name="folder">The user's folder.</param>
    /// <param name="version">The program's version.</param>
    /// <param name="command">The command's name, without its arguments.</param>
    /// <param name="exception">The fault.</param>
    /// <param name="when">The time, for the file's name.</param>
    /// <returns>The report's path; null where nothing could be written anywhere.</returns>
    public static string? Write(string folder, string version, string command, Exception exception, DateTimeOffset when)
    {
        ArgumentNullException.ThrowIfNull(folder);
        ArgumentNullException.ThrowIfNull(exception);
        string name = string.Create(CultureInfo.InvariantCulture, $"crash-{when:yyyyMMdd-HHmmss}-{Environment.ProcessId}.txt");
        string text = Text(version, command, exception);
        foreach (string place in new[] { folder, Path.GetTempPath() })
        {
            try
            {
                Directory.CreateDirectory(place);
                string path = Path.Combine(place, name);
                File.WriteAllText(path, text, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false));
                return path;
            }
            catch (Exception refusal) when (FileProblemException.IsRefusal(refusal))
            {
                // The next place is tried; a report that cannot be written must not hide the fault itself.
            }
        }

        return null;
    }

    /// <summary>The report's text. Messages of exceptions are left out, because they may quote the desk.</summary>
    /// <param name="version">The program's version.</param>
    /// <param name="command">The command's name.</param>
    /// <param name="exception">The fault.</param>
    internal static string Text(string version, string command, Exception exception)
    {
        StringBuilder text = new();
        text.Append("Lampblack ").Append(version).Append(", command ").Append(command).Append('\n');
        text.Append(RuntimeInformation.FrameworkDescription).Append(", ").Append(RuntimeInformation.OSDescription)
            .Append(", ").Append(RuntimeInformation.ProcessArchitecture.ToString()).Append('\n');
        text.Append("This report holds no part of your desk: only where in the program the fault happened.\n");
        for (Exception? fault = exception; fault is not null; fault = fault.InnerException)
        {
            text.Append('\n').Append(fault.GetType().FullName).Append('\n').Append(fault.StackTrace).Append('\n');
        }

        return text.ToString();
    }
}
