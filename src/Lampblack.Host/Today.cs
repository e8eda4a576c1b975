using System;
using System.Globalization;
using Lampblack.Printers;

namespace Lampblack.Host;

/// <summary>What day it is where the program runs; the core has no clock.</summary>
public static class Today
{
    /// <summary>Today, as printer files write it.</summary>
    public static string Text => DateOnly.FromDateTime(TimeProvider.System.GetLocalNow().DateTime).ToString(PrinterWords.DateForm, CultureInfo.InvariantCulture);
}
