using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using System.Security.Cryptography;
using System.Text;
using Lampblack.Geometry;

namespace Lampblack.Formats;

/// <summary>
/// Writes print-ready PDF 1.7 (ISO 32000-1): upright pages without <c>/Rotate</c>, filled paths and pictures made of dots, every ink in its own colour space,
/// no fonts and no transparency, no date. Same pages and options, same bytes.
/// </summary>
public static class PdfFile
{
    private const int CatalogNumber = 1;
    private const int PagesNumber = 2;
    private const int InfoNumber = 3;
    private const int FirstPageNumber = 4;

    /// <summary>The file. The print dialog is preset to true size, the sides asked for, and the tray that holds the page's size.</summary>
    /// <param name="pages">At least one page.</param>
    /// <param name="options">Title and sides.</param>
    /// <exception cref="ArgumentException">
    /// There is no page; a page is wider than tall or larger than 5080 mm; a trim or bleed box is off its page; a coordinate is not a number within 100 m.
    /// </exception>
    public static ImmutableArray<byte> Write(ImmutableArray<PdfPage> pages, PdfOptions options) =>
        Bind(pages.IsDefault ? [] : [.. pages.Select(PackedPage.Of)], options);

    /// <summary>The file of packed pages, which may be in other files too.</summary>
    /// <param name="pages">At least one page.</param>
    /// <param name="options">Title and sides.</param>
    /// <exception cref="ArgumentException">There is no page.</exception>
    public static ImmutableArray<byte> Bind(ImmutableArray<PackedPage> pages, PdfOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        if (pages.IsDefaultOrEmpty)
        {
            throw new ArgumentException("a PDF has at least one page", nameof(pages));
        }

        // The second line tells programs that move files that the contents are not text (ISO 32000-1 clause 7.5.2).
        var file = new ByteText((1 << 14) + pages.SelectMany(PdfParts.Of).Distinct().Sum(part => part.Bytes.Length)).Add("%PDF-1.7\n%"u8).Add([0xE2, 0xE3, 0xCF, 0xD3]).Add("\n"u8);
        var offsets = new List<int>();
        AddCatalog(file, offsets, options);
        var parts = new PdfParts(pages, FirstPageNumber);
        AddPageList(file, offsets, parts.Pages);
        AddInfo(file, offsets, options.Title);
        foreach (var (page, number) in pages.Zip(parts.Pages))
        {
            AddPage(file, offsets, page, number, parts);
        }

        AddEnd(file, offsets);
        return file.ToImmutable();
    }

    private static void AddCatalog(ByteText file, List<int> offsets, PdfOptions options)
    {
        Open(file, offsets, CatalogNumber).Add("<< /Type /Catalog /Pages "u8).Add(PagesNumber);
        file.Add(" 0 R\n/ViewerPreferences << /PrintScaling /None /Duplex "u8);
        file.Add(options.Sides switch
        {
            PdfSides.OneSided => "/Simplex"u8,
            PdfSides.TwoSidedLongEdge => "/DuplexFlipLongEdge"u8,
            _ => throw new ArgumentException("sides are one-sided or two-sided", nameof(options)),
        });
        file.Add(" /PickTrayByPDFSize true >> >>\nendobj\n"u8);
    }

    private static void AddPageList(ByteText file, List<int> offsets, ImmutableArray<int> pages)
    {
        Open(file, offsets, PagesNumber).Add("<< /Type /Pages /Count "u8).Add(pages.Length).Add(" /Kids ["u8);
        foreach (var page in pages)
        {
            file.Add(" "u8).Add(page).Add(" 0 R"u8);
        }

        file.Add(" ] >>\nendobj\n"u8);
    }

    private static void AddInfo(ByteText file, List<int> offsets, string title)
    {
        Open(file, offsets, InfoNumber).Add("<< /Title "u8);
        AddTextString(file, PrintableText.Clean(title));
        file.Add(" /Producer (Lampblack) >>\nendobj\n"u8);
    }

    private static void AddPage(ByteText file, List<int> offsets, PackedPage packed, int number, PdfParts parts)
    {
        var page = packed.Page;
        Open(file, offsets, number).Add("<< /Type /Page /Parent "u8).Add(PagesNumber).Add(" 0 R\n"u8);
        AddBox(file, "/MediaBox"u8, new(0, 0, page.WidthMm, page.HeightMm));
        AddBox(file, "/TrimBox"u8, page.OnPage(page.Trim));
        AddBox(file, "/BleedBox"u8, page.OnPage(page.Bleed));
        AddResources(file, packed, parts);
        var many = packed.Drawings.Length > 1;
        file.Add(many ? "/Contents [ "u8 : "/Contents "u8);
        foreach (var drawing in packed.Drawings)
        {
            file.Add(parts[drawing]).Add(" 0 R "u8);
        }

        file.Add(many ? "] >>\nendobj\n"u8 : ">>\nendobj\n"u8);
        foreach (var part in PdfParts.Of(packed).Where(part => parts[part] > offsets.Count))
        {
            AddStream(file, offsets, part, parts);
        }
    }

    /// <summary>What the page's drawings call images and stamps.</summary>
    private static void AddResources(ByteText file, PackedPage packed, PdfParts parts)
    {
        var named = packed.Drawings.SelectMany(drawing => drawing.Named).DistinctBy(one => one.Called).ToList();
        if (named.Count == 0)
        {
            file.Add("/Resources << >> "u8);
            return;
        }

        file.Add("/Resources << /XObject <<"u8);
        foreach (var (called, part) in named)
        {
            file.Add(" /"u8).Add(called).Add(" "u8).Add(parts[part]).Add(" 0 R"u8);
        }

        file.Add(" >> >>\n"u8);
    }

    private static void AddStream(ByteText file, List<int> offsets, PackedPart part, PdfParts parts)
    {
        Open(file, offsets, parts[part]).Add("<< "u8).Add(part.Head.AsSpan());
        if (part is PackedImage { Mask: { } mask })
        {
            file.Add(" /Mask "u8).Add(parts[mask]).Add(" 0 R"u8);
        }

        file.Add(" /Length "u8).Add(part.Bytes.Length).Add(" >>\nstream\n"u8).Add(part.Bytes.AsSpan()).Add("\nendstream\nendobj\n"u8);
    }

    /// <summary>The table of places and the trailer (ISO 32000-1 clauses 7.5.4 and 7.5.5); the identifier comes from all that stands before.</summary>
    private static void AddEnd(ByteText file, List<int> offsets)
    {
        var identifier = Convert.ToHexString(SHA256.HashData(file.Written).AsSpan(0, 16));
        var start = file.Length;
        file.Add("xref\n0 "u8).Add(offsets.Count + 1).Add("\n0000000000 65535 f \n"u8);
        foreach (var offset in offsets)
        {
            // Each entry is 20 bytes long, so the place is ten digits.
            file.Add(offset, "D10").Add(" 00000 n \n"u8);
        }

        file.Add("trailer\n<< /Size "u8).Add(offsets.Count + 1).Add(" /Root "u8).Add(CatalogNumber).Add(" 0 R /Info "u8).Add(InfoNumber);
        file.Add(" 0 R /ID [<"u8).Add(identifier).Add("> <"u8).Add(identifier).Add(">] >>\nstartxref\n"u8).Add(start).Add("\n%%EOF\n"u8);
    }

    private static ByteText Open(ByteText file, List<int> offsets, int number)
    {
        offsets.Add(file.Length);
        return file.Add(number).Add(" 0 obj\n"u8);
    }

    private static void AddBox(ByteText file, ReadOnlySpan<byte> name, Box<PageSpace> box)
    {
        file.Add(name).Add(" ["u8).AddExactPoints(box.LeftMm).Add(" "u8).AddExactPoints(box.BottomMm);
        file.Add(" "u8).AddExactPoints(box.RightMm).Add(" "u8).AddExactPoints(box.TopMm).Add("]\n"u8);
    }

    /// <summary>A text string (ISO 32000-1 clause 7.9.2.2): plain where it is ASCII, else UTF-16 with its mark.</summary>
    private static void AddTextString(ByteText file, string text)
    {
        if (!Ascii.IsValid(text))
        {
            file.Add("<FEFF"u8).Add(Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(text))).Add(">"u8);
            return;
        }

        file.Add("("u8);
        file.Add(text
            .Replace("\\", "\\\\", StringComparison.Ordinal)
            .Replace("(", "\\(", StringComparison.Ordinal)
            .Replace(")", "\\)", StringComparison.Ordinal));
        file.Add(")"u8);
    }
}
