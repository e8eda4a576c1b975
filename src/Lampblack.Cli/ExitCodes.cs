namespace Lampblack.Cli;

/// <summary>What the program tells the one who called it.</summary>
internal static class ExitCodes
{
    /// <summary>All is well.</summary>
    internal const int Fine = 0;

    /// <summary>A <c>stop</c> finding, or <c>doctor</c> found something that is missing.</summary>
    internal const int Stopped = 1;

    /// <summary>The command line was wrong.</summary>
    internal const int WrongUse = 2;

    /// <summary>Something could not be read or written.</summary>
    internal const int FileProblem = 3;

    /// <summary>The program itself is at fault.</summary>
    internal const int OurFault = 4;

    /// <summary>Stopped from outside, by Ctrl-C: 128 and the number of SIGINT, as shells count.</summary>
    internal const int Interrupted = 130;
}
