using System;
using System.IO;
using System.Xml;
using Lampblack.Findings;

namespace Lampblack.VectorArt;

/// <summary>Reads the elements of a file. Nothing outside the text is ever opened, and no entity is made larger than it stands.</summary>
internal static class SvgTree
{
    public const string Svg = "http://www.w3.org/2000/svg";
    private const string XLink = "http://www.w3.org/1999/xlink";
    private const string Xml = "http://www.w3.org/XML/1998/namespace";

    /// <summary>The outermost element, or null and a finding that says why not.</summary>
    /// <param name="text">The file's text.</param>
    /// <param name="places">Places in it.</param>
    /// <param name="log">Where findings go.</param>
    /// <param name="onlyOutermost">Whether what lies in it is left unread.</param>
    public static SvgElement? Read(string text, TextPlaces places, FindingLog log, bool onlyOutermost = false)
    {
        if (HasOwnDeclarations(text, out var declarations))
        {
            log.Add(Finding.Stop(
                "svg-declarations",
                "The file declares a document type with parts of its own (entities, say), which can make a small file endlessly large; they are not read.",
                "Save it as plain SVG, without entities, or open it in the drawing program and export it again.",
                PlaceOf(text, declarations, places)));
            return null;
        }

        if (declarations >= 0)
        {
            log.Add(Finding.Note(
                "svg-doctype", "The file names a document type; it is passed over, and the address in it is never fetched.", "Nothing to do.", PlaceOf(text, declarations, places)));
        }

        var settings = new XmlReaderSettings
        {
            DtdProcessing = declarations >= 0 ? DtdProcessing.Ignore : DtdProcessing.Prohibit,
            XmlResolver = null,
            CloseInput = true,
            MaxCharactersFromEntities = 1,
            IgnoreComments = true,
        };
        using var reader = XmlReader.Create(new StringReader(text), settings);
        try
        {
            return Read(reader, places, log, onlyOutermost);
        }
        catch (XmlException fault)
        {
            var isCutOff = places.Of(fault.LineNumber, fault.LinePosition).Offset >= text.TrimEnd().Length - 1;
            log.Add(Finding.Stop(
                "svg-broken",
                isCutOff ? "The file ends in the middle of an element." : "This is no well-formed XML: a tag, a quote or an entity is not as XML has it.",
                isCutOff ? "It may have been cut off on its way: copy or export it again." : "Export it again as plain SVG; if you wrote it by hand, look at the place and just before it.",
                places.Of(fault.LineNumber, fault.LinePosition)));
            return null;
        }
    }

    private static SvgElement? Read(XmlReader reader, TextPlaces places, FindingLog log, bool onlyOutermost)
    {
        var lines = (IXmlLineInfo)reader;
        SvgElement? root = null;
        SvgElement? here = null;
        var count = 0;
        while (reader.Read())
        {
            switch (reader.NodeType)
            {
                case XmlNodeType.Element when reader.Depth > Limits.Depth:
                    throw new TooMuchException(TooMuch.Depth);
                case XmlNodeType.Element:
                    if (++count > Limits.Elements)
                    {
                        throw new TooMuchException(TooMuch.Elements);
                    }

                    if (root is null && !IsRoot(reader, places.Of(lines.LineNumber, lines.LinePosition, -1), log))
                    {
                        return null;
                    }

                    var isEmpty = reader.IsEmptyElement;
                    if (root is not null && reader.NamespaceURI != root["#namespace"])
                    {
                        count += Skip(reader, isEmpty);
                        break;
                    }

                    var element = new SvgElement(reader.LocalName, here, places, lines.LineNumber, lines.LinePosition);
                    here?.Children.Add(element);
                    if (root is null)
                    {
                        root = element;
                        root["#namespace"] = reader.NamespaceURI;
                    }

                    ReadAttributes(reader, element);
                    if (onlyOutermost)
                    {
                        return root;
                    }

                    here = isEmpty ? here : element;
                    break;
                case XmlNodeType.EndElement:
                    here = here?.Parent;
                    break;
                case XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace
                    when here is { Name: "text" or "tspan" or "textPath" or "style" or "a" }:
                    here.Children.Add(new("#text", here, places, lines.LineNumber, lines.LinePosition) { Text = reader.Value });
                    break;
                case XmlNodeType.ProcessingInstruction when reader.Name == "xml-stylesheet":
                    log.External("a style sheet", reader.Value, places.Of(lines.LineNumber, lines.LinePosition));
                    break;
            }
        }

        return root;
    }

    private static bool IsRoot(XmlReader reader, SourceSpan place, FindingLog log)
    {
        if (reader.LocalName == "svg" && reader.NamespaceURI is Svg or "")
        {
            return true;
        }

        log.Add(Finding.Stop(
            "svg-not-svg",
            $"The file is XML, but its outermost element is <{Shown.Short(reader.Name)}>, not <svg>.",
            "Export the drawing as SVG. A web page that shows a drawing is not the drawing itself.",
            place));
        return false;
    }

    /// <summary>Passes over an element of another namespace and all in it; its elements count, deep ones too.</summary>
    private static int Skip(XmlReader reader, bool isEmpty)
    {
        var depth = reader.Depth;
        var count = 0;
        while (!isEmpty && reader.Read() && (reader.Depth > depth || reader.NodeType != XmlNodeType.EndElement))
        {
            count++;
            if (reader.NodeType == XmlNodeType.Element && reader.Depth > Limits.Depth)
            {
                throw new TooMuchException(TooMuch.Depth);
            }
        }

        return count;
    }

    private static void ReadAttributes(XmlReader reader, SvgElement element)
    {
        while (reader.MoveToNextAttribute())
        {
            if (reader.NamespaceURI.Length == 0 && reader.Prefix.Length == 0)
            {
                element[reader.LocalName] = reader.Value;
            }
            else if (reader.NamespaceURI == XLink && reader.LocalName == "href" && element["href"] is null)
            {
                element["href"] = reader.Value;
            }
            else if (reader.NamespaceURI == Xml && reader.LocalName == "space")
            {
                element["xml:space"] = reader.Value;
            }
        }
    }

    /// <summary>Whether there is a document type with declarations between brackets; where it begins, or -1 where there is none.</summary>
    private static bool HasOwnDeclarations(string text, out int start)
    {
        start = -1;
        for (var at = 0; at < text.Length;)
        {
            var rest = text.AsSpan(at);
            if (char.IsWhiteSpace(rest[0]))
            {
                at++;
            }
            else if (rest.StartsWith("<?") || rest.StartsWith("<!--"))
            {
                var end = text.IndexOf(rest[1] == '?' ? "?>" : "-->", at, StringComparison.Ordinal);
                if (end < 0)
                {
                    return false;
                }

                at = end + 2;
            }
            else if (rest.StartsWith("<!DOCTYPE"))
            {
                start = at;
                char quote = '\0';
                foreach (var letter in rest)
                {
                    if (quote != '\0' ? letter == quote : letter is '"' or '\'')
                    {
                        quote = quote == '\0' ? letter : '\0';
                    }
                    else if (quote == '\0' && letter is '[' or '>')
                    {
                        return letter == '[';
                    }
                }

                return true;
            }
            else if (rest.StartsWith(">"))
            {
                at++;
            }
            else
            {
                return false;
            }
        }

        return false;
    }

    private static SourceSpan PlaceOf(string text, int offset, TextPlaces places)
    {
        var line = 1;
        var start = 0;
        for (var index = 0; index < offset; index++)
        {
            if (text[index] == '\n')
            {
                (line, start) = (line + 1, index + 1);
            }
        }

        return places.Of(line, offset - start + 1);
    }
}
