using System.Globalization;
using System.Linq;
using Lampblack.Desks;
using Lampblack.Findings;

namespace Lampblack.Jobs;

/// <summary>Holes of a row or grid can't be marked as drilled one by one: says which controls to write in its place.</summary>
internal static class DrilledCopies
{
    private const int MostListed = 6;

    /// <summary>The finding, with the places of the copies.</summary>
    /// <param name="item">Panel and control.</param>
    /// <param name="row">The control.</param>
    /// <param name="number">The copy that was meant, from 1; null where it was not said.</param>
    public static Finding Finding(string item, Control row, int? number)
    {
        var count = row.Copies.Count;
        var meant = number is { } one && one >= 1 && one <= count ? one : 1;
        var places = Enumerable.Range(0, count).Take(MostListed).Select(copy =>
        {
            var (dx, dy) = row.Copies.ShiftOf(copy);
            return string.Create(CultureInfo.InvariantCulture, $"`{row.Id}-{copy + 1}` at [{row.XMm + dx:0.####}, {row.YMm + dy:0.####}]");
        });
        var rest = count > MostListed ? string.Create(CultureInfo.InvariantCulture, $" and so on to `{row.Id}-{count}`") : string.Empty;
        return Findings.Finding.Stop(
            "drilled-copies",
            number is { } asked && asked != meant
                ? $"`{item}` is a row or grid of {count} holes, so that there is no copy {asked}; and `drilled` tells of one hole only"
                : $"`{item}` is a row or grid of {count} holes, and `drilled` tells of one hole only",
            string.Create(
                CultureInfo.InvariantCulture,
                $"write the copies as {count} controls of their own, without `row` or `grid` and each with its own word: {string.Join(", ", places)}{rest}. Then mark each: `{row.Id}-{meant}=0.3,-0.2`"),
            row.Span,
            item);
    }
}
