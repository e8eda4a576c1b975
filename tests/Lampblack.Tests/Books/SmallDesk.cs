using System;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using System.Threading;
using System.Xml;
using System.Xml.Linq;
using Lampblack.Jobs;
using Lampblack.Printers;
using Lampblack.Tests.Suites;

namespace Lampblack.Tests.Books;

/// <summary>A desk with something of everything that a book tells, and its book read back as XML.</summary>
internal static class SmallDesk
{
    /// <summary>Invented: a signal box of one lever, one knob, one encoder, one lamp.</summary>
    public static string Text(string order = "A", string way = "snap", string book = "", string more = "") => $$"""
        lampblack = 1
        title = "Signal box"
        order = "{{order}}"

        [cutting]
        way = "{{way}}"

        [controller]
        chip = "ATmega328P"

        [lighting]
        emitter = "emitter-5mm-wide"
        depth = 30

        {{(book.Length > 0 ? "[book]\n" + book : string.Empty)}}
        {{more}}
        [[panel]]
        id = "main"
        title = "Levers"
        size = [120, 70]
        corner = 3

          [panel.fixings]
          inset = 6

          [[panel.control]]
          id = "points"
          part = "toggle-mini-on-on"
          at = [30, 36]
          legend = "POINTS"
          states = ["MAIN", "LOOP"]

          [[panel.control]]
          id = "speed"
          part = "pot-9mm"
          at = [60, 36]
          legend = "SPEED"
          dial = { from = 0, to = 10, major = 2, minor = 1 }

          [[panel.control]]
          id = "turn"
          part = "encoder-m7"
          at = [92, 36]
          legend = "TABLE"

          [[panel.emitter]]
          at = [45, 20]

          [[panel.emitter]]
          at = [76, 52]
        """;

    public static BuildResult Build(string text, PrinterFile? printer = null, double? bracketStepMm = null, string? black = null, BuildParts parts = BuildParts.Book, string? legend = null) => Lampblack.Jobs.Build.Run(
        ExampleDesks.Alone(Encoding.UTF8.GetBytes(text)), new("A4", "option", black, Parts: parts, Printer: printer, BracketStepMm: bracketStepMm) { Legend = legend }, new Progress<string>(), CancellationToken.None);

    /// <summary>A page; blanks at which no line breaks are read as blanks.</summary>
    public static string Html(BuildResult result, string path = "book.html") => Printed(result, path).Replace('\u00a0', ' ');

    /// <summary>A page as it is written.</summary>
    public static string Printed(BuildResult result, string path = "book.html") => Encoding.UTF8.GetString(result.Files.Single(file => file.Path == path).Bytes.AsSpan());

    /// <summary>The page as XML: that it can be read so is a promise of its own.</summary>
    public static XDocument Xml(string html)
    {
        using var reader = XmlReader.Create(new System.IO.StringReader(html), new() { DtdProcessing = DtdProcessing.Ignore });
        return XDocument.Load(reader);
    }

    /// <summary>All rows about things of a kind, by the thing.</summary>
    public static ImmutableArray<(string Key, XElement Row)> Rows(XDocument page, string kind) =>
        [.. page.Descendants().Where(element => element.Attribute("data-kind")?.Value == kind).Select(element => (element.Attribute("data-key")!.Value, element))];

    /// <summary>Everything that a reader reads: no styles, no scripts, no drawings' titles.</summary>
    public static string Words(XDocument page)
    {
        var text = new StringBuilder();
        Add(page.Root!, text);
        return string.Join(' ', text.ToString().Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }

    private static void Add(XElement element, StringBuilder text)
    {
        if (element.Name.LocalName is "style" or "script" or "svg" or "title")
        {
            return;
        }

        foreach (var node in element.Nodes())
        {
            switch (node)
            {
                case XText words:
                    text.Append(words.Value);
                    break;
                case XElement inner:
                    Add(inner, text);
                    text.Append(inner.Name.LocalName is "code" or "b" or "strong" or "a" or "span" ? string.Empty : " ");
                    break;
            }
        }
    }

    public static string Digits(double number) => number.ToString("0.##", CultureInfo.InvariantCulture);
}
