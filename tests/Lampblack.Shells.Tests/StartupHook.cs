using System;
using System.Globalization;
using System.IO;
using Lampblack.Shells.Tests;

/// <summary>
/// What the program's own process says of its surroundings. The runtime calls this class by its name, which has no namespace, in a process that is started
/// with DOTNET_STARTUP_HOOKS: so the culture of a build is seen from inside, and the program needs no word for it. Where a desk is named it edits that until it is killed.
/// </summary>
internal static class StartupHook
{
    /// <summary>Names the file that the surroundings are written to.</summary>
    internal const string Variable = "LAMPBLACK_TEST_SURROUNDINGS";

    /// <summary>Writes decimal point, capital of i, and the clock's distance from UTC in a July in hours.</summary>
    internal static void Initialize()
    {
        if (Environment.GetEnvironmentVariable(DeskStates.Variable) is { } desk)
        {
            DeskStates.Run(desk);
        }

        // Windows and macOS take the culture from the system's settings, not from LC_ALL; it is set here, so that the test means the same there.
        if (!OperatingSystem.IsLinux())
        {
            string language = Environment.GetEnvironmentVariable("LC_ALL")!.Split('.')[0].Replace('_', '-');
            CultureInfo.CurrentCulture = CultureInfo.DefaultThreadCurrentCulture = CultureInfo.GetCultureInfo(language == "C" ? string.Empty : language);
        }

        CultureInfo culture = CultureInfo.CurrentCulture;
        double hours = TimeZoneInfo.Local.GetUtcOffset(new DateTime(2026, 7, 1, 0, 0, 0, DateTimeKind.Utc)).TotalHours;
        File.WriteAllText(
            Environment.GetEnvironmentVariable(Variable)!,
            $"{1.5.ToString(culture)} {culture.TextInfo.ToUpper("i")} {hours.ToString(CultureInfo.InvariantCulture)}");
    }
}
