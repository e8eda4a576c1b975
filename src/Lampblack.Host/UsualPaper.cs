using System;
using System.Collections.Generic;
using System.Globalization;

namespace Lampblack.Host;

/// <summary>The paper that is usual where the maker lives, for when nobody says which paper to use.</summary>
public static class UsualPaper
{
    // Territories whose usual paper is Letter: CLDR's paperSize data as the library ICU 72 gives it (ulocdata_getPaperSize over all two-letter
    // codes: 216 x 279 mm for these fourteen, 210 x 297 mm for all others).
    private static readonly HashSet<string> LetterTerritories = new(StringComparer.OrdinalIgnoreCase)
    {
        "BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE",
    };

    /// <summary>The usual paper of this machine's user: <c>A4</c> or <c>Letter</c>.</summary>
    public static string Here() =>
        For(Environment.GetEnvironmentVariable, OperatingSystem.IsWindows() || OperatingSystem.IsMacOS() ? SystemTerritory() : null);

    /// <summary>The usual paper for given settings.</summary>
    /// <param name="environment">Gives an environment variable's value, or null.</param>
    /// <param name="systemTerritory">Two-letter territory of the system's settings, where the system has such settings besides the environment.</param>
    public static string For(Func<string, string?> environment, string? systemTerritory)
    {
        ArgumentNullException.ThrowIfNull(environment);

        // The order of POSIX locale(7): LC_ALL beats the category's own variable, LANG is the fallback. A desktop's own setting knows better than LANG.
        string? territory = Territory(environment("LC_ALL")) ?? Territory(environment("LC_PAPER")) ?? systemTerritory ?? Territory(environment("LANG"));
        return territory is not null && LetterTerritories.Contains(territory) ? "Letter" : "A4";
    }

    // "en_US.UTF-8@euro" gives US; "C", "POSIX" and "de" give nothing.
    private static string? Territory(string? locale)
    {
        if (string.IsNullOrEmpty(locale))
        {
            return null;
        }

        string plain = locale.Split('.', '@')[0];
        string[] parts = plain.Split('_', '-');
        return parts.Length > 1 && parts[^1].Length == 2 ? parts[^1] : null;
    }

    private static string? SystemTerritory()
    {
        try
        {
            return RegionInfo.CurrentRegion.TwoLetterISORegionName;
        }
        catch (ArgumentException)
        {
            return null;
        }
    }
}
