using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using Lampblack.Formats;
using Lampblack.Geometry;
using Lampblack.Printers;
using Lampblack.Quantities;
using Lampblack.Sheets;

namespace Lampblack.Fabrication;

/// <summary>Fills upright pages from the top with paragraphs, drawings and tables; a row of a table is never cut by the end of a page, and its head is repeated.</summary>
/// <param name="paper">The paper.</param>
/// <param name="title">Stands at the head of every page.</param>
/// <param name="marginMm">What the printer can't print along each edge.</param>
/// <param name="textMm">Height of capitals in paragraphs and tables.</param>
internal sealed class PageFlow(PaperSize paper, string title, double marginMm, double textMm = 1.7)
{
    private const double SideMm = 12;
    private const double TitleMm = 2.6;
    private const double HeadingMm = 2.2;
    private const double HeadingAirMm = 2.5;
    private const double LineFactor = 1.9;
    private const int TogetherRows = 3;
    private const double RowAirMm = 1.5;
    private const double CellAirMm = 1.5;
    private const double DrawingAirMm = 6;

    // Nothing is drawn before it is known that these pages are the ones that are wanted: where a chart is laid out anew to be shared out better, only words are measured.
    private readonly List<List<Func<IEnumerable<(Region<SheetSpace> Shape, Ink? Ink)>>>> _pages = [];
    private double _topMm;
    private string? _heading;

    /// <summary>How wide paragraphs and tables are.</summary>
    public double WidthMm => paper.WidthMm - (2 * SideMm);

    private double StartMm => paper.HeightMm - FootMm - TitleMm - 5;

    /// <summary>How many pages there are.</summary>
    public int PageCount => _pages.Count;

    /// <summary>How much of the last page is filled.</summary>
    public double LastShare => _pages.Count == 0 ? 0 : (StartMm - _topMm) / (StartMm - FootMm);

    /// <summary>How high the heading is that is still to be written.</summary>
    private double HeadMm => _heading is null ? 0 : HeadingAirMm + (HeadingMm * LineFactor);

    private double FootMm => Math.Max(marginMm, SideMm);

    private List<Func<IEnumerable<(Region<SheetSpace> Shape, Ink? Ink)>>> Page
    {
        get
        {
            if (_pages.Count == 0)
            {
                Turn();
            }

            return _pages[^1];
        }
    }

    /// <summary>A paragraph over the whole width.</summary>
    public void Paragraph(string text)
    {
        var lines = TrialDrawing.Wrapped(text, textMm, WidthMm);
        Room(Math.Min(lines.Count, 4) * textMm * LineFactor);
        foreach (var line in lines)
        {
            Room(textMm);
            Line(line, textMm, SideMm, _topMm, WidthMm);
            _topMm -= textMm * LineFactor;
        }

        _topMm -= 1;
    }

    /// <summary>What follows begins a page.</summary>
    public void NextPage()
    {
        Written();
        if (_pages.Count > 0 && Page.Count > 0)
        {
            Turn();
        }
    }

    /// <summary>A heading, kept with what follows: it is written as soon as that tells how much room its beginning needs.</summary>
    public void Heading(string text)
    {
        Written();
        _heading = text;
    }

    /// <summary>How high a drawing can be that is to stand under what is on the page already.</summary>
    public double RoomMm => (_pages.Count == 0 ? StartMm : _topMm) - FootMm - DrawingAirMm - HeadMm;

    /// <summary>A drawing of a height; it is given its room, and is drawn when the pages are asked for. Shapes without an ink are in that of the words.</summary>
    public void Drawing(Func<Box<SheetSpace>, IEnumerable<(Region<SheetSpace> Shape, Ink? Ink)>> draw, double heightMm)
    {
        Room(heightMm + DrawingAirMm);
        _topMm -= 2;
        var room = new Box<SheetSpace>(SideMm, _topMm - heightMm, WidthMm, heightMm);
        Page.Add(() => draw(room));
        _topMm -= heightMm + 5;
    }

    /// <summary>A table: columns with their heads and shares of the width, rows of as many cells; what is too long is wrapped.</summary>
    public void Table(IReadOnlyList<(string Head, double Share)> columns, IReadOnlyList<string[]> rows)
    {
        var sum = columns.Sum(column => column.Share);
        double[] widths = [.. columns.Select(column => column.Share / sum * WidthMm)];
        var heads = Lines([.. columns.Select(column => column.Head)], widths);
        var lines = rows.Select(row => Lines(row, widths)).ToList();
        var heights = lines.ConvertAll(HeightOf);
        Room(HeightOf(heads) + heights.Take(TogetherRows).Sum());
        Row(heads, widths, 0.3);
        foreach (var (index, row) in lines.Index())
        {
            // The last rows stay together: none of them stands alone on a page.
            var together = index == Math.Max(1, rows.Count - TogetherRows) ? heights.Skip(index).Sum() : heights[index];
            if (_topMm - together < FootMm)
            {
                Turn();
                Row(heads, widths, 0.3);
            }

            Row(row, widths, 0.1);
        }

        _topMm -= 1.5;
    }

    /// <summary>The pages as the printer gets them.</summary>
    public ImmutableArray<PdfPage> Pages(Ink ink, PrinterProperties printer)
    {
        Written();
        var whole = new Box<PageSpace>(0, 0, paper.WidthMm, paper.HeightMm);
        var map = PageMapping.Front(printer);
        return
        [
            .. _pages.Select((page, index) =>
            {
                var head = _pages.Count == 1 ? title : string.Create(CultureInfo.InvariantCulture, $"{title}  ·  page {index + 1} of {_pages.Count}");
                var line = SheetText.Starting(SheetText.Fitting(head, TitleMm, WidthMm), TitleMm, new(SideMm, paper.HeightMm - FootMm - TitleMm, WidthMm, TitleMm), Side.Front);
                return new PdfPage(paper.WidthMm, paper.HeightMm, whole, whole, Painted(page.SelectMany(draw => draw()).Append((line, null))));
            }),
        ];

        ImmutableArray<Painted<PageSpace>> Painted(IEnumerable<(Region<SheetSpace> Shape, Ink? Ink)> shapes)
        {
            var painted = ImmutableArray.CreateBuilder<Painted<PageSpace>>();
            foreach (var (shape, own) in shapes)
            {
                if (!shape.IsEmpty)
                {
                    painted.Add(new(shape.Map(map), own ?? ink));
                }
            }

            return painted.ToImmutable();
        }
    }

    /// <summary>The lines of each cell.</summary>
    private List<string>[] Lines(string[] cells, double[] widths) => [.. cells.Select((cell, index) => TrialDrawing.Wrapped(cell, textMm, widths[index] - CellAirMm))];

    private double HeightOf(List<string>[] cells) => (cells.Max(lines => lines.Count) * textMm * LineFactor) + RowAirMm;

    private void Row(List<string>[] cells, double[] widths, double ruleMm)
    {
        var left = SideMm;
        foreach (var (index, lines) in cells.Index())
        {
            var top = _topMm;
            foreach (var line in lines)
            {
                Line(line, textMm, left, top, widths[index]);
                top -= textMm * LineFactor;
            }

            left += widths[index];
        }

        _topMm -= HeightOf(cells);
        var rule = new Box<SheetSpace>(SideMm, _topMm + (RowAirMm * 0.75), WidthMm, ruleMm);
        Page.Add(() => [(Region<SheetSpace>.Rectangle(rule), null)]);
    }

    private void Line(string text, double heightMm, double leftMm, double topMm, double widthMm) =>
        Page.Add(() => [(SheetText.Starting(text, heightMm, new(leftMm, topMm - heightMm, widthMm, heightMm), Side.Front), null)]);

    /// <summary>Room for the beginning of something; the heading before it comes to the same page.</summary>
    private void Room(double heightMm)
    {
        if (_pages.Count == 0 || (_pages[^1].Count > 0 && _topMm - HeadMm - heightMm < FootMm))
        {
            Turn();
        }

        if (_heading is { } text)
        {
            _heading = null;
            _topMm -= HeadingAirMm;
            Line(text, HeadingMm, SideMm, _topMm, WidthMm);
            _topMm -= HeadingMm * LineFactor;
        }
    }

    /// <summary>A heading that nothing followed.</summary>
    private void Written()
    {
        if (_heading is not null)
        {
            Room(0);
        }
    }

    private void Turn()
    {
        _pages.Add([]);
        _topMm = StartMm;
    }
}
