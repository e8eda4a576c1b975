using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using Lampblack.Findings;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Calibration;

/// <summary>Reads the answers that are one word or a row of patches.</summary>
internal static partial class OtherAnswers
{
    private const string PatchForm = "name patches by their coverage in percent, 100 to 400, as printed below them: C300,C320";

    /// <summary>The answer of a which-way sheet; null where there is none or with a finding.</summary>
    public static TurnEntry? Turn(string? tick, string? cross, List<Finding> findings)
    {
        var side = cross is null ? null : new Typed("--cross", cross, findings).OneOf("front", "back");
        if (tick is null)
        {
            if (cross is not null)
            {
                findings.Add(Finding.Stop("answer-missing", $"{Shown.Code($"--cross {cross}")}: nothing says where the tick was", "add `--tick A`, `B`, `front` or `none`", item: "--cross"));
            }

            return null;
        }

        var where = new Typed("--tick", tick, findings).OneOf("A", "B", "front", "none");
        if (where == "none")
        {
            findings.Add(Finding.Stop(
                "tick-none",
                "no tick was seen in any box, so nothing can be told of the way this printer turns a sheet",
                "either side 2 was printed on another sheet or not at all; or the page was fitted to another paper and the tick lies beside its box: print at actual size (100 %); or the tick is there but faint: hold the sheet right against a lamp. Nothing was stored",
                item: "--tick"));
            return null;
        }

        if (where is null || (cross is not null && side is null))
        {
            return null;
        }

        // The cross was made on the face that lay up in the slot before the front was printed.
        var face = side switch
        {
            "front" => PrintedFace.Upper,
            "back" => PrintedFace.Lower,
            _ => PrintedFace.Unknown,
        };
        return new(where == "A" ? Tick.A : where == "B" ? Tick.B : Tick.Front, face);
    }

    /// <summary>What a coverage row told; null where nothing was typed or with a finding.</summary>
    public static CoverageEntry? Coverage(ImmutableArray<string> flaked, ImmutableArray<string> held, List<Finding> findings)
    {
        if (flaked.IsEmpty && held.IsEmpty)
        {
            return null;
        }

        if (Patches("--flaked", flaked, findings) is not { } bad || Patches("--held", held, findings) is not { } good)
        {
            return null;
        }

        if (!bad.IsEmpty && !good.IsEmpty && bad.Min() <= good.Max())
        {
            findings.Add(Finding.Stop(
                "coverage-contradict",
                FormattableString.Invariant($"C{bad.Min()} flaked, but C{good.Max()} held, which is {(bad.Min() == good.Max() ? "the same patch" : "more toner")}"),
                FormattableString.Invariant($"look at C{bad.Min()} and C{good.Max()} again: rub, fold and tape each in the same way; a patch that fails one of the three has flaked. Nothing was stored"),
                item: "--flaked"));
            return null;
        }

        return new([.. bad.Select(percent => percent / 100.0)], [.. good.Select(percent => percent / 100.0)]);
    }

    /// <summary>The register number of the sheet that was read; the newest where none was typed; null with a finding.</summary>
    public static int? Register(string? typed, PrinterFile file, List<Finding> findings)
    {
        var newest = file.Revision;
        if (typed is null)
        {
            return newest;
        }

        var word = typed.Trim();
        word = word.StartsWith("register", StringComparison.OrdinalIgnoreCase) ? word[8..].Trim() : word;
        if (!int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number))
        {
            new Typed("--register", typed, findings).Unreadable("is no number", "it is the whole number behind the word `register` on the sheet, such as 2");
            return null;
        }

        if (file.Knows(number))
        {
            return number;
        }

        findings.Add(number <= file.Forgotten
            ? Finding.Stop(
                "register-forgotten",
                FormattableString.Invariant($"the sheet says register {number}, and what sheets up to register {file.Forgotten} were made with was forgotten, so that nobody knows what was undone on it"),
                FormattableString.Invariant($"build, print and read a new sheet: it says register {newest}. Nothing was stored"),
                item: "--register")
            : Finding.Stop(
                "register-unknown",
                FormattableString.Invariant($"the sheet says register {number}, but this printer file has learned {(newest == 0 ? "nothing yet" : FormattableString.Invariant($"only up to register {newest}"))}"),
                "look at the number on the sheet; or the sheet was made with another printer file: learn for that one",
                item: "--register"));
        return null;
    }

    /// <summary>The step of a bracket in mm; null with a finding.</summary>
    public static double? StepMm(string? typed, List<Finding> findings)
    {
        if (typed is null)
        {
            return Bracket.UsualStepMm;
        }

        var step = new Typed("--step", typed, findings);
        if (!LengthText.TryRead(typed, out var mm, out var problem))
        {
            step.Unreadable(problem, "it is printed on the bracket's sheets, such as 0.7 mm");
            return null;
        }

        if (mm is < Bracket.SmallestStepMm or > Bracket.LargestStepMm)
        {
            step.Unreadable(FormattableString.Invariant($"is no step of a bracket: {Bracket.SmallestStepMm} to {Bracket.LargestStepMm} mm"), "it is printed on the bracket's sheets, such as 0.7 mm");
            return null;
        }

        return mm;
    }

    private static ImmutableArray<int>? Patches(string option, ImmutableArray<string> texts, List<Finding> findings)
    {
        var patches = new SortedSet<int>();
        foreach (var text in texts)
        {
            var typed = new Typed(option, text, findings);
            var words = NamedValues.Words(text.Replace(" %", "%", StringComparison.Ordinal));
            if (words.Length == 0)
            {
                typed.Unreadable("names no patch", PatchForm);
                return null;
            }

            foreach (var word in words)
            {
                var patch = Patch().Match(word);
                var percent = patch.Success ? int.Parse(patch.Groups["percent"].Value, CultureInfo.InvariantCulture) : 0;
                if (percent is < 100 or > 400)
                {
                    typed.Unreadable($"has {Shown.Code(word)} for a patch", PatchForm);
                    return null;
                }

                patches.Add(percent);
            }
        }

        return [.. patches];
    }

    [GeneratedRegex("^[cC]?(?<percent>[0-9]{1,3})%?$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Patch();
}
