using System;
using System.IO;

namespace Lampblack.Host;

/// <summary>Something could not be read or written. Its message is a plain sentence for the maker; no stack trace belongs beside it.</summary>
public sealed class FileProblemException : Exception
{
    /// <summary>A problem told in a plain sentence.</summary>
    /// <param name="message">What could not be done, with which file, and why.</param>
    /// <param name="inner">What the system said, if anything.</param>
    public FileProblemException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }

    /// <summary>Whether an exception is the system refusing a file, and not a fault of ours.</summary>
    /// <param name="exception">What was thrown.</param>
    internal static bool IsRefusal(Exception exception) =>
        exception is IOException or UnauthorizedAccessException or System.Security.SecurityException;

    /// <summary>The reason of a refusal as the end of a sentence.</summary>
    /// <param name="exception">What was thrown.</param>
    internal static string Reason(Exception exception)
    {
        // The low word is the system's own number: errno on Unix, the Win32 code on Windows. Both are needed, since .NET gives no type for either.
        int number = exception.HResult & 0xFFFF;
        return exception switch
        {
            UnauthorizedAccessException => "permission was refused",
            FileNotFoundException => "it is not there",
            DirectoryNotFoundException => "its folder is not there",
            PathTooLongException => "its name is too long",
            IOException when OperatingSystem.IsWindows() && number == 32 => "another program has it open",
            IOException when OperatingSystem.IsWindows() && number is 39 or 112 => "the disk is full",
            IOException when !OperatingSystem.IsWindows() && number == 28 => "the disk is full",
            IOException when !OperatingSystem.IsWindows() && number == 30 => "the disk can only be read",
            _ => exception.Message,
        };
    }
}
