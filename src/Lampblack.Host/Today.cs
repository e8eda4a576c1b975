using System;
using Lampblack.Jobs;

namespace Lampblack.Host;

/// <summary>What day it is where the program runs; the core has no clock.</summary>
public static class Today
{
    /// <summary>Today, as printer files write it.</summary>
    public static string Text => LearnAnswers.Day(DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().DateTime));
}
