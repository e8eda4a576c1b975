using System;
using System.Collections.Generic;
using System.Linq;
using Xunit;

namespace Lampblack.Tests.Architecture;

/// <summary>Rules answer with lists, so that one run names every offender.</summary>
internal static class Offences
{
    public static void AssertNone(IEnumerable<string> offences)
    {
        var list = offences.ToList();
        Assert.True(list.Count == 0, $"{list.Count} offence(s):{Environment.NewLine}{string.Join(Environment.NewLine, list)}");
    }

    /// <summary>What is used on one line; a type is left out where one of its members is named.</summary>
    public static string Names(IEnumerable<string> names)
    {
        var all = names.Distinct().Order(StringComparer.Ordinal).ToList();
        return string.Join(", ", all.Where(name => !all.Any(other => other.StartsWith(name + ".", StringComparison.Ordinal))));
    }
}
