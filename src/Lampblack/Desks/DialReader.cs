using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Findings;
using Lampblack.Parts;
using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads dials.</summary>
internal static class DialReader
{
    /// <summary>More marks than this can't be printed apart on any dial a desk holds.</summary>
    private const double MostMarks = 500;

    private const double MostDecades = 12;

    private static readonly ImmutableArray<(string Word, ScaleLaw Value)> Laws =
        [("linear", ScaleLaw.Linear), ("log", ScaleLaw.Logarithmic), ("table", ScaleLaw.Table)];

    private static readonly ImmutableArray<(string Word, NumeralStand Value)> Stands =
        [("upright", NumeralStand.Upright), ("radial", NumeralStand.Radial), ("none", NumeralStand.None)];

    public static FreeDial? ReadFree(TableReader table, DeskReading reading, string id, MarkStyle usual, TextStyle text)
    {
        var style = StyleReader.Style(table, reading, usual);
        var copies = StyleReader.Copies(table, reading);
        var place = table.PlaceMm("at", -DeskReading.FarthestMm, DeskReading.FarthestMm);
        ControlReader.RequireAt(table, reading);
        var dial = ReadKeys(table, reading, style, text, null, text.HeightMm);
        if (dial is not null)
        {
            StyleReader.Idle(table, reading, usual, style, dial.Ranges.Select(range => range.Style));
        }

        if (dial is { RadiusMm: 0 })
        {
            reading.Findings.Add(Finding.Stop("key-missing", "a dial on its own has no `radius`", "give the distance of its marks from the centre, such as `radius = 18`", table.Span, id));
            return null;
        }

        return place is { } at && dial is not null ? new(id, table.Span, style, copies, at.XMm, at.YMm, dial) : null;
    }

    public static Dial? Read(TableReader table, DeskReading reading, MarkStyle style, TextStyle text, Part part, double legendHeightMm)
    {
        var dial = ReadKeys(table, reading, style, text, part, legendHeightMm * 0.8);
        table.Finish();
        return dial;
    }

    private static Dial? ReadKeys(TableReader table, DeskReading reading, MarkStyle style, TextStyle text, Part? part, double usualHeightMm)
    {
        var law = table.Choice("scale", Laws) ?? (table.Has("table") ? ScaleLaw.Table : ScaleLaw.Linear);
        var entries = ReadTable(table, reading, law);
        var (givenFrom, givenTo) = (table.Number("from", -1e6, 1e6) ?? 0, table.Number("to", -1e6, 1e6) ?? 10);
        var (from, to) = law == ScaleLaw.Table ? (entries.FirstOrDefault().Value, entries.LastOrDefault().Value) : (givenFrom, givenTo);
        string[] idle = law switch
        {
            ScaleLaw.Table => ["from", "to", "start", "end", "major", "minor"],
            ScaleLaw.Logarithmic => ["major", "table"],
            _ => ["table"],
        };
        KeyUnused.Report(table, reading, idle, $"a dial with this scale does not use it");
        var sweep = part?.Sweep ?? (StartDegrees: 225, EndDegrees: -45);
        var start = table.Number("start", -360, 360) ?? 90 - sweep.StartDegrees;
        var end = table.Number("end", -360, 360) ?? 90 - sweep.EndDegrees;
        var numerals = table.Choice("numerals", Stands) ?? NumeralStand.Upright;
        KeyUnused.Report(table, reading, numerals == NumeralStand.None ? ["numeral-height", "font", "labels"] : [], "a dial without numerals has no use for it");
        var lettering = text with
        {
            HeightMm = table.LengthMm("numeral-height", 0.5, 50) ?? Math.Round(usualHeightMm, 2, MidpointRounding.AwayFromZero),
            Font = table.Text("font") ?? text.Font,
        };
        var major = table.Number("major", 1e-6, 1e6) ?? RoundStep(Math.Abs(to - from) / 5);
        var minor = table.Number("minor", 0, 1e6) ?? 0;
        var dial = new Dial(
            table.Span,
            law,
            from,
            to,
            law == ScaleLaw.Table ? entries.FirstOrDefault().Degrees : start,
            law == ScaleLaw.Table ? entries.LastOrDefault().Degrees : end,
            major,
            minor,
            entries,
            table.LengthMm("radius", 1, 500) ?? 0,
            table.LengthMm("mark-length", 0.3, 50) ?? 0,
            numerals,
            ReadLabels(table, reading),
            ReadRanges(table, reading, style),
            table.Flag("line") ?? false,
            lettering);
        CheckInside(dial, table, reading);
        if (law == ScaleLaw.Table && entries.IsEmpty && table.Has("table"))
        {
            // What is wrong with its rows is told already.
            return null;
        }

        return Problem(dial) is { } problem ? Refuse(problem) : Advise(dial, table, reading);

        Dial? Refuse((string Message, string Hint) why)
        {
            reading.Findings.Add(Finding.Stop("dial-scale", why.Message, why.Hint, table.Span));
            return null;
        }
    }

    private static (string Message, string Hint)? Problem(Dial dial)
    {
        if (dial.Law == ScaleLaw.Table && dial.TableDegrees.Length < 2)
        {
            return ("a tabulated dial needs two or more values with their angles", "`table = [[0, -120], [10, 120]]`: value, degrees clockwise from straight up");
        }

        // What differs by less than a billionth can't be told apart on paper, nor be counted through.
        if (!(Math.Abs(dial.To - dial.From) > 1e-9 * Math.Max(1, Math.Max(Math.Abs(dial.From), Math.Abs(dial.To)))))
        {
            return ("a dial's first and last value are the same", "set `from` and `to`");
        }

        if (dial.StartDegrees == dial.EndDegrees || Math.Abs(dial.EndDegrees - dial.StartDegrees) > 360)
        {
            return ("a dial's sweep must be more than 0 and at most 360 degrees", "set `start` and `end`, degrees clockwise from straight up");
        }

        if (dial.Law == ScaleLaw.Logarithmic && !(dial.From > 0 && dial.To > 0))
        {
            return ("a logarithmic dial can't reach 0 or below", "set `from` and `to` above 0, such as 1 and 1000");
        }

        if (dial.Law == ScaleLaw.Logarithmic && MarkCount.Decades(dial) > MostDecades)
        {
            return (string.Create(CultureInfo.InvariantCulture, $"a logarithmic dial can span {MostDecades} powers of ten"), "set `from` and `to` nearer to each other");
        }

        var step = dial.Minor > 0 ? Math.Min(dial.Minor, dial.Major) : dial.Major;
        return dial.Law == ScaleLaw.Linear && Math.Abs(dial.To - dial.From) / step > MostMarks
            ? (string.Create(CultureInfo.InvariantCulture, $"the dial would have more than {MostMarks} marks"), "make `major` and `minor` larger")
            : null;
    }

    private static void CheckInside(Dial dial, TableReader table, DeskReading reading)
    {
        var (low, high) = (Math.Min(dial.From, dial.To), Math.Max(dial.From, dial.To));
        foreach (var range in dial.Ranges.Where(range => Math.Min(range.From, range.To) < low || Math.Max(range.From, range.To) > high))
        {
            reading.Findings.Add(Finding.Warn(
                "dial-range",
                string.Create(CultureInfo.InvariantCulture, $"the range {range.From} to {range.To} reaches beyond the dial, which goes from {dial.From} to {dial.To}"),
                "it is cut off at the dial's end; correct the range or the dial",
                table.SpanOf("ranges")));
        }

        foreach (var label in dial.Labels.Where(label => label.Value < low || label.Value > high))
        {
            reading.Findings.Add(Finding.Warn(
                "dial-label",
                string.Create(CultureInfo.InvariantCulture, $"the word {Shown.Code(label.Word)} stands at {label.Value}, which is not on the dial"),
                string.Create(CultureInfo.InvariantCulture, $"the dial goes from {dial.From} to {dial.To}"),
                table.SpanOf("labels")));
        }

        foreach (var label in dial.Labels.Where(label => label.Value >= low && label.Value <= high && dial.Numerals != NumeralStand.None && !IsNumbered(dial, label.Value)))
        {
            reading.Findings.Add(Finding.Warn(
                "dial-label",
                string.Create(CultureInfo.InvariantCulture, $"the word {Shown.Code(label.Word)} stands at {label.Value}, where the dial has no numbered mark, and is not printed"),
                "take the value of a numbered mark, or another `major`",
                table.SpanOf("labels")));
        }
    }

    /// <summary>Whether a numbered mark stands at a value of the dial.</summary>
    private static bool IsNumbered(Dial dial, double value)
    {
        return dial.Law switch
        {
            ScaleLaw.Table => dial.TableDegrees.Any(row => IsAt(row.Value)),
            ScaleLaw.Logarithmic => IsAt(Math.Pow(10, Math.Round(Math.Log10(value), MidpointRounding.AwayFromZero))),
            _ => IsAt(Math.Round(value / dial.Major, MidpointRounding.AwayFromZero) * dial.Major),
        };

        bool IsAt(double mark) => Math.Abs(mark - value) <= 1e-9 * Math.Max(1, Math.Abs(value));
    }

    private static Dial Advise(Dial dial, TableReader table, DeskReading reading)
    {
        foreach (var (key, step) in new[] { ("major", dial.Major), ("minor", dial.Minor) })
        {
            // MIL-HDBK-759B 5.2.2.3.1.4.1: graduations by 1, 2 or 5 units times a power of ten.
            if (dial.Law == ScaleLaw.Linear && table.Has(key) && step > 0 && !IsRoundStep(step) && !IsCompass(dial))
            {
                reading.Findings.Add(Finding.Note(
                    "dial-step",
                    string.Create(CultureInfo.InvariantCulture, $"`{key} = {step}` is not 1, 2 or 5 times a power of ten; such scales are read wrong more often"),
                    string.Create(CultureInfo.InvariantCulture, $"consider {RoundStep(step)}"),
                    table.SpanOf(key)));
            }
        }

        var share = dial.Minor > 0 ? dial.Major / dial.Minor : 1;
        if (dial.Law == ScaleLaw.Linear && Math.Abs(share - Math.Round(share, MidpointRounding.AwayFromZero)) > 1e-6 * share)
        {
            reading.Findings.Add(Finding.Warn(
                "dial-minor",
                string.Create(CultureInfo.InvariantCulture, $"`minor = {dial.Minor}` does not divide `major = {dial.Major}`: the small marks stand unevenly between the numbers"),
                string.Create(CultureInfo.InvariantCulture, $"such as `minor = {Dividing(dial.Major, dial.Minor)}`"),
                table.SpanOf("minor")));
        }

        return dial;
    }

    /// <summary>The step nearest to a wanted one that parts the numbered one into 2, 4, 5 or 10, the parts of scales with round steps.</summary>
    private static double Dividing(double major, double wanted) => new[] { 2, 4, 5, 10 }.Select(parts => major / parts)
        .OrderBy(step => IsRoundStep(step) ? 0 : 1).ThenBy(step => Math.Abs(step - wanted)).Select(step => Math.Round(step, 6, MidpointRounding.AwayFromZero)).First();

    private static ImmutableArray<(double Value, double Degrees)> ReadTable(TableReader table, DeskReading reading, ScaleLaw law)
    {
        var rows = table.NumberPairs("table", 2, 200, -1e6, 1e6);
        if (law != ScaleLaw.Table || rows.IsDefaultOrEmpty)
        {
            return [];
        }

        var rising = Math.Sign(rows[^1].First - rows[0].First);
        var turning = Math.Sign(rows[^1].Second - rows[0].Second);
        for (var index = 1; index < rows.Length; index++)
        {
            if (Math.Sign(rows[index].First - rows[index - 1].First) != rising || Math.Sign(rows[index].Second - rows[index - 1].Second) != turning)
            {
                reading.Findings.Add(Finding.Stop(
                    "dial-scale", "the values and the angles of a tabulated dial must each go one way only", "put its rows in order", table.SpanOf("table")));
                return [];
            }
        }

        return [.. rows.Select(row => (row.First, row.Second))];
    }

    private static ImmutableArray<(double Value, string Word)> ReadLabels(TableReader table, DeskReading reading)
    {
        if (table.Table("labels") is not { } labels)
        {
            return [];
        }

        var words = new List<(double Value, string Word)>();
        foreach (var key in labels.Keys)
        {
            if (double.TryParse(key, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value))
            {
                words.Add((value, labels.Text(key, allowEmpty: true) ?? string.Empty));
            }
            else
            {
                reading.Findings.Add(Finding.Stop("dial-label", $"{Shown.Code(key)} in `labels` is not a value of the dial", "such as `labels = { \"0\" = \"OFF\" }`", labels.SpanOf(key)));
                _ = labels.Raw(key);
            }
        }

        labels.Finish();
        return [.. words.OrderBy(word => word.Value)];
    }

    private static ImmutableArray<DialRange> ReadRanges(TableReader table, DeskReading reading, MarkStyle style)
    {
        var ranges = ImmutableArray.CreateBuilder<DialRange>();
        foreach (var range in table.Tables("ranges"))
        {
            var from = range.Number("from", -1e6, 1e6);
            var to = range.Number("to", -1e6, 1e6);
            if (from is null || to is null)
            {
                reading.Findings.Add(Finding.Stop("key-missing", "a range needs `from` and `to`", "such as `{ from = 8, to = 10, ink = \"amber\" }`", range.Span));
            }

            var mark = StyleReader.Style(range, reading, style);
            StyleReader.Idle(range, reading, style, mark, []);
            range.Finish();
            if (from is { } a && to is { } b && a != b)
            {
                ranges.Add(new(a, b, mark));
            }
            else if (from is not null && to is not null)
            {
                reading.Findings.Add(Finding.Warn("dial-range", "a range that ends where it starts is not drawn", "set `from` and `to`", range.Span));
            }
        }

        return ranges.ToImmutable();
    }

    /// <summary>The nearest step of 1, 2 or 5 times a power of ten that is not smaller.</summary>
    private static double RoundStep(double step)
    {
        var power = Math.Pow(10, Math.Floor(Math.Log10(step)));
        var lead = step / power;
        return power * (lead <= 1.000001 ? 1 : lead <= 2.000001 ? 2 : lead <= 5.000001 ? 5 : 10);
    }

    /// <summary>Compass scales are counted in 5, 10, 30 or 90 degrees; the handbook excepts them.</summary>
    private static bool IsCompass(Dial dial) => Math.Abs(dial.To - dial.From) is 360 or 180 or 90;

    private static bool IsRoundStep(double step) => Math.Abs(RoundStep(step) - step) < 1e-9 * step;
}
