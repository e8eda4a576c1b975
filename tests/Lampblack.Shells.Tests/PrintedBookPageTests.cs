using System;
using System.Collections.Generic;
using System.Globalization;
using System.Linq;
using System.Text.RegularExpressions;
using System.Threading.Tasks;
using Lampblack.Shells.Tests.Workshop;
using Microsoft.Playwright;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using Xunit;

namespace Lampblack.Shells.Tests;

/// <summary>Where the pages of an example's book end, as a browser prints them on both papers: no heading ends a page, no page is nearly empty, and a table that goes on has some rows on either.</summary>
[Collection(nameof(InTheBrowser))]
public sealed partial class PrintedBookPageTests
{
    private const int LeastRows = 3;

    // Heads of chapters and steps are 13 and 11 points, all else 9.6 and less.
    private const double HeadPoints = 10.5;

    // Shares of a page's height.
    // The page before a last chapter that is kept whole: two fifths.
    private const double LeastFilled = 0.4;
    private const double LeastOnLast = 0.3;
    private const double FootPoints = 45;

    // Every row says which it is, in letters that take no room and no ink.
    private const string Mark = """
        () => document.querySelectorAll('table').forEach((table, number) => [...table.tBodies[0].rows].forEach((row, index) => {
          const mark = document.createElement('span');
          mark.textContent = `¤${number}.${index}.${table.tBodies[0].rows.length}¤`;
          mark.style.cssText = 'position:absolute;font:1px monospace;color:#fff;white-space:nowrap';
          row.cells[0].prepend(mark);
        }))
        """;

    [Theory]
    [InlineData("dome-desk")]
    [InlineData("yard-board")]
    [InlineData("kiln")]
    public async Task Pages_of_an_example_end_where_one_can_stop_reading(string name)
    {
        await using ExampleBook book = await ExampleBook.Opened(name);
        IPage page = book.Page;
        await page.EvaluateAsync(Mark);
        foreach (string paper in new[] { "A4", "Letter" })
        {
            Assert.Empty(Faults(await page.PdfAsync(new() { Format = paper, PrintBackground = true }), paper));
        }

        // Without what keeps rows and heads together, pages end anywhere: the check sees it.
        await page.AddStyleTagAsync(new() { Content = "@media print{tr,h2,h3,.facts,figure,thead,caption,#step-keep-files,.gate,.short{break-after:auto!important;break-before:auto!important;break-inside:auto!important}}" });
        Assert.Contains(Faults(await page.PdfAsync(new() { Format = "A4", PrintBackground = true }), "A4").Concat(Faults(await page.PdfAsync(new() { Format = "Letter", PrintBackground = true }), "Letter")), fault => fault.Contains("rows of table", StringComparison.Ordinal));
    }

    private static List<string> Faults(byte[] file, string paper)
    {
        using PdfDocument pdf = PdfDocument.Open(file);
        List<string> faults = [];
        foreach (Page page in pdf.GetPages())
        {
            List<Letter> letters = [.. page.Letters.Where(letter => letter.BoundingBox.Bottom > FootPoints && letter.PointSize > 2 && !string.IsNullOrWhiteSpace(letter.Value))];
            double lowest = letters.Min(letter => letter.BoundingBox.Bottom);
            if (letters.Any(letter => letter.BoundingBox.Bottom < lowest + 4 && letter.PointSize > HeadPoints))
            {
                faults.Add($"{paper}: a head ends page {page.Number}");
            }

            double filled = 1 - (page.GetImages().Select(image => image.BoundingBox.Bottom).Append(lowest).Min() / page.Height);
            if (filled < (page.Number == pdf.NumberOfPages ? LeastOnLast : LeastFilled))
            {
                faults.Add(FormattableString.Invariant($"{paper}: page {page.Number} is filled to {filled:0.00}"));
            }

            string marks = string.Concat(page.Letters.Where(letter => letter.PointSize <= 2).Select(letter => letter.Value));
            foreach (IGrouping<int, Match> table in RowMark().Matches(marks).GroupBy(match => Number(match, 1)))
            {
                int rows = table.Select(match => Number(match, 2)).Distinct().Count();
                if (rows < Math.Min(LeastRows, Number(table.First(), 3)))
                {
                    faults.Add($"{paper}: {rows} rows of table {table.Key} stand alone on page {page.Number}");
                }
            }
        }

        Assert.True(pdf.NumberOfPages > 30);
        Assert.True(pdf.GetPages().Sum(page => page.Letters.Count(letter => letter.PointSize <= 2)) > 500);
        return faults;
    }

    private static int Number(Match match, int group) => int.Parse(match.Groups[group].ValueSpan, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"¤(\d+)\.(\d+)\.(\d+)¤")]
    private static partial Regex RowMark();
}
