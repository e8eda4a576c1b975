using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Wiring;

namespace Lampblack.Jobs;

/// <summary>Which controls are called: for panels that are soldered row by row.</summary>
internal static class RollCallChoice
{
    /// <summary>Ids that words mean: a control's id, "panel/", "row 2", "column 1". Empty for all.</summary>
    public static ImmutableArray<string> Of(PinPlan plan, ImmutableArray<string> words, List<Finding> findings)
    {
        if (words.IsDefaultOrEmpty)
        {
            return [];
        }

        var ids = ImmutableArray.CreateBuilder<string>();
        foreach (var word in words)
        {
            var found = Meant(plan, word.Trim()).ToList();
            ids.AddRange(found);
            if (found.Count == 0)
            {
                findings.Add(Finding.Stop(
                    "rollcall-nobody",
                    $"nobody answers to {Shown.Quoted(word)}",
                    $"write a control's id, the beginning of one with '/' at its end, \"row 2\" or \"column 1\"; controls are {Shown.List(plan.Controls.Select(control => control.Id))}"));
            }
        }

        return [.. ids.Distinct()];
    }

    private static IEnumerable<string> Meant(PinPlan plan, string word)
    {
        var parts = word.Split(' ');
        if (parts is ["row" or "column", var text] && int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            // A control is called as a whole: one that reaches into other rows is called once all of it is soldered.
            return plan.Controls.Where(control => control.Contacts.Any(contact => plan.Controllers[control.Controller].Contacts[contact].Place is MatrixInput at
                && (parts[0] == "row" ? at.Row : at.Column) == number - 1)).Select(control => control.Id);
        }

        var ids = plan.Controls.Select(control => control.Id).Concat(plan.Controllers.SelectMany(controller => controller.Dimmers).Select(dimmer => dimmer.Channel));
        return ids.Where(id => id == word || (word.EndsWith('/') && id.StartsWith(word, StringComparison.Ordinal)));
    }
}
