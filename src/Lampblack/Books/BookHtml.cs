using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Runtime.InteropServices;
using System.Text;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>A book as one page: HTML that is well-formed XML at once, with everything in it, to be read on a phone and printed on A4 and Letter.</summary>
public static class BookHtml
{
    // So many rows stay on one page.
    private const int ShortTable = 8;

    /// <summary>The page.</summary>
    /// <param name="book">The book.</param>
    public static ImmutableArray<byte> Write(Book book)
    {
        ArgumentNullException.ThrowIfNull(book);
        return Write(book, Body(book));
    }

    /// <summary>All that stands on the page but what names the book.</summary>
    internal static string Body(Book book)
    {
        var page = new StringBuilder("<nav aria-label=\"Contents\">\n<ol>\n");
        foreach (var chapter in book.Chapters)
        {
            page.Append(CultureInfo.InvariantCulture, $"<li><a href=\"#{chapter.Id}\">{Text(chapter.Heading)}</a></li>\n");
        }

        page.Append("</ol>\n</nav>\n<main>\n");
        foreach (var chapter in SharedPictures.Once(book.Chapters))
        {
            Chapter(page, chapter);
        }

        return page.Append("</main>\n").ToString();
    }

    /// <summary>The page round what stands on it.</summary>
    internal static ImmutableArray<byte> Write(Book book, string body)
    {
        var page = Begun($"{book.Title}: build book", $"{book.Title} · build book {book.Code}", "build-book");
        page.Append(CultureInfo.InvariantCulture, $"<header>\n<h1>{Text(book.Title)}: build book</h1>\n<p class=\"code\">Book {Text(book.Code)}. Keep it with the sheets of the same build.</p>\n</header>\n");
        return Ended(page.Append(body));
    }

    /// <summary>A chapter alone, for a page that shows one after the other.</summary>
    /// <param name="chapter">The chapter.</param>
    public static string Part(BookChapter chapter)
    {
        ArgumentNullException.ThrowIfNull(chapter);
        var part = new StringBuilder();
        Chapter(part, chapter);
        return part.ToString();
    }

    /// <summary>The beginning of a page.</summary>
    internal static StringBuilder Begun(string title, string runningHead, string kind) => new StringBuilder("<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n")
        .Append(CultureInfo.InvariantCulture, $"<title>{Text(title)}</title>\n<style>{BookStyle.Of(runningHead)}</style>\n</head>\n<body class=\"{kind}\">\n");

    /// <summary>The page's end.</summary>
    internal static ImmutableArray<byte> Ended(StringBuilder page) => ImmutableCollectionsMarshal.AsImmutableArray(Encoding.UTF8.GetBytes(page.Append(CultureInfo.InvariantCulture, $"<script>{BookStyle.Script}</script>\n</body>\n</html>\n").ToString()));

    private static void Chapter(StringBuilder page, BookChapter chapter)
    {
        page.Append(CultureInfo.InvariantCulture, $"<section class=\"chapter\" id=\"{chapter.Id}\">\n<h2>{Text(chapter.Heading)}</h2>\n");
        Blocks(page, chapter.Blocks, chapter.Id);
        foreach (var (index, step) in chapter.Steps.Index())
        {
            Step(page, step, string.Create(CultureInfo.InvariantCulture, $"{chapter.Number}.{index + 1}"));
        }

        page.Append("</section>\n");
    }

    /// <summary>A step with its number.</summary>
    internal static void Step(StringBuilder page, BookStep step, string number)
    {
        page.Append(CultureInfo.InvariantCulture, $"<article class=\"step\" id=\"step-{step.Id}\" data-ways=\"{string.Join(' ', step.OnlyOn)}\">\n<h3><label><input type=\"checkbox\" data-tick=\"step {step.Id}\"/> {number} {Text(step.Title)}</label></h3>\n<dl class=\"facts\">\n<div><dt>Time</dt><dd>{UnbrokenWords.Of($"{BuildBook.Duration(step.Minutes)}{(step.WaitMinutes > 0 ? $", then {BuildBook.Duration(step.WaitMinutes)} to dry; what the can says comes first" : string.Empty)}")}</dd></div>\n");
        Fact(page, "Tools", [.. step.AllTools.Select(tool => Text(tool.Words))]);
        Fact(page, "Materials", step.Materials);
        page.Append("</dl>\n");
        foreach (var caution in step.Cautions)
        {
            page.Append(CultureInfo.InvariantCulture, $"<p class=\"caution\" data-caution=\"{caution.Id}\"><strong>Take care: {UnbrokenWords.Of(LowerFirst(Text(caution.Title)))}.</strong> {UnbrokenWords.Of(Text(caution.Words))}</p>\n");
        }

        Blocks(page, step.Blocks, step.Id);
        page.Append(CultureInfo.InvariantCulture, $"<div class=\"gate\">\n<p><strong>Go on if</strong> {UnbrokenWords.Of(LowerFirst(step.Gate.GoOnIf))}</p>\n<p><strong>If not:</strong> {UnbrokenWords.Of(step.Gate.Otherwise)}</p>\n</div>\n</article>\n");
    }

    private static void Fact(StringBuilder page, string name, ImmutableArray<string> markups)
    {
        if (!markups.IsEmpty)
        {
            page.Append(CultureInfo.InvariantCulture, $"<div><dt>{name}</dt><dd>{UnbrokenWords.Of(string.Join("; ", markups))}</dd></div>\n");
        }
    }

    internal static void Blocks(StringBuilder page, IEnumerable<BookBlock> blocks, string step)
    {
        // What is done is counted through a step, whatever stands between.
        var done = 0;
        foreach (var block in blocks)
        {
            switch (block)
            {
                case Paragraph paragraph:
                    page.Append(CultureInfo.InvariantCulture, $"<p>{UnbrokenWords.Of(paragraph.Markup)}</p>\n");
                    break;
                case Doings doings:
                    page.Append(done == 0 ? "<ol class=\"doings\">\n" : string.Create(CultureInfo.InvariantCulture, $"<ol class=\"doings\" start=\"{done + 1}\">\n")).AppendJoin(string.Empty, doings.Markups.Select(markup => $"<li>{UnbrokenWords.Of(markup)}</li>\n")).Append("</ol>\n");
                    done += doings.Markups.Length;
                    break;
                case PictureRow row:
                    page.Append("<div class=\"pictures\">\n");
                    foreach (var picture in row.All)
                    {
                        page.Append(CultureInfo.InvariantCulture, $"<figure class=\"{Width(picture.WidthMm)}{(picture.IsTall ? " tall" : string.Empty)}\">{picture.Content}<figcaption>{UnbrokenWords.Of(picture.Caption)}</figcaption></figure>\n");
                    }

                    page.Append("</div>\n");
                    break;
                case BookTable table:
                    Table(page, table, step);
                    break;
                case ToolList tools:
                    page.Append(CultureInfo.InvariantCulture, $"<p class=\"list-head\">{tools.Caption}</p>\n<ul class=\"tools\">\n")
                        .AppendJoin(string.Empty, tools.All.Select(use => $"<li><label><input type=\"checkbox\" data-tick=\"tool {Text(use.Tool.Name)}\"/> <span>{UnbrokenWords.Of(Text(use.Tool.Words))} <span class=\"where\">({string.Join(", ", use.Steps)})</span></span></label></li>\n")).Append("</ul>\n");
                    break;
                case CautionList cautions:
                    page.Append("<dl class=\"cautions\">\n").AppendJoin(string.Empty, cautions.All.Select(caution => $"<dt id=\"caution-{caution.Id}\">{UnbrokenWords.Of(Text(caution.Title))}</dt>\n<dd>{UnbrokenWords.Of(Text(caution.Words))}</dd>\n")).Append("</dl>\n");
                    break;
            }
        }
    }

    private static void Table(StringBuilder page, BookTable table, string step)
    {
        page.Append(CultureInfo.InvariantCulture, $"<table class=\"{(table.IsTicked ? "ticked" : "plain")}{(table.Rows.Length <= ShortTable ? " short" : string.Empty)}\">\n<caption>{UnbrokenWords.Of(table.Caption)}</caption>\n<thead><tr>");
        if (table.IsTicked)
        {
            page.Append("<th scope=\"col\">Done</th>");
        }

        page.AppendJoin(string.Empty, table.Heads.Select(head => $"<th scope=\"col\">{UnbrokenWords.Of(Text(head))}</th>")).Append("</tr></thead>\n<tbody>\n");
        foreach (var (index, row) in table.Rows.Index())
        {
            var name = row.Kind.Length > 0 ? $"{row.Kind} {row.Key}" : string.Create(CultureInfo.InvariantCulture, $"{step} row {index + 1}");
            page.Append("<tr").Append(row.Kind.Length > 0 ? $" data-kind=\"{row.Kind}\" data-key=\"{Text(row.Key)}\"" : string.Empty).Append('>');
            if (table.IsTicked)
            {
                page.Append(CultureInfo.InvariantCulture, $"<td class=\"tick\"><input type=\"checkbox\" data-tick=\"{Text(name)}\" aria-label=\"{Text(name)}: done\"/></td>");
            }

            foreach (var (column, cell) in row.Cells.Index())
            {
                page.Append(column == 0 ? "<th scope=\"row\"" : "<td").Append(" data-head=\"").Append(Text(table.Heads[column])).Append(UnbrokenWords.IsKept(cell) ? "\" class=\"kept\">" : "\">").Append(UnbrokenWords.Of(cell)).Append(column == 0 ? "</th>" : "</td>");
            }

            page.Append("</tr>\n");
        }

        page.Append("</tbody>\n</table>\n");
    }

    private static string Width(double mm) => mm switch
    {
        <= 40 => "small",
        <= 70 => "middle",
        <= 95 => "half",
        <= 120 => "large",
        _ => "whole",
    };

    /// <summary>"Go on if every line …": a name or markup at the beginning stays as it is.</summary>
    private static string LowerFirst(string markup) => markup.Length > 1 && char.IsUpper(markup[0]) && (char.IsLower(markup[1]) || markup[1] == ' ') ? char.ToLowerInvariant(markup[0]) + markup[1..] : markup;
}
