using System;
using System.Collections.Concurrent;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.IO;
using System.Linq;
using System.Runtime.InteropServices;
using System.Threading;
using HarfBuzzSharp;
using Lampblack.Findings;
using Lampblack.Geometry;

namespace Lampblack.Lettering;

/// <summary>A font, ready to give outlines. Never changes; may be used from several threads; needs no disposal.</summary>
public sealed class Typeface
{
    /// <summary>How many sized glyphs are remembered before all are forgotten: a workshop that runs for days must not grow.</summary>
    private const int RememberedGlyphs = 20_000;

    // Where a font says nothing at all: about what Latin fonts have.
    private const double UsualCapHeightShare = 0.7;
    private const double UsualXHeightShare = 0.5;

    // HarfBuzz would take the language from the system's locale; "und" says that it is not known.
    private static readonly Language Undetermined = new("und");

    private readonly Lock _native = new();
    private readonly Font _font;
    private readonly long _nativeBytes;
    private readonly ConcurrentDictionary<uint, ImmutableArray<GlyphContour>?> _contours = new();
    private readonly ConcurrentDictionary<(uint Glyph, double CapHeightMm, double ChordErrorMm), Region<ItemSpace>> _glyphs = new();

    private Typeface(string name, FontFile file, string? licence)
    {
        using var blob = Copy(file.Bytes);
        using var face = new Face(blob, 0);
        face.MakeImmutable();
        _font = new Font(face);

        // The wrapper's finalizer frees nothing, so this class has one that does; the collector is told what hangs on so small an object.
        GC.SuppressFinalize(_font);
        _nativeBytes = file.Bytes.Length;
        GC.AddMemoryPressure(_nativeBytes);

        // HarfBuzz can also ask the system for glyphs and metrics; only its own reading is the same everywhere.
        _font.SetFunctionsOpenType();
        UnitsPerEm = file.UnitsPerEm;
        _font.SetScale(UnitsPerEm, UnitsPerEm);
        FamilyName = FontNames.Family(file.Table("name")) ?? name;
        EmbeddedLicence = licence;

        var os2 = file.Table("OS/2");
        CapHeightShare = HeightShare('H', os2, 88) ?? UsualCapHeightShare;
        XHeightShare = HeightShare('x', os2, 86) ?? UsualXHeightShare;
    }

    /// <summary>Gives the font's native memory back.</summary>
    ~Typeface()
    {
        if (_font is not null)
        {
            _font.Dispose();
            GC.RemoveMemoryPressure(_nativeBytes);
        }
    }

    /// <summary>The family's name as the font tells it, else the name it was given.</summary>
    public string FamilyName { get; }

    /// <summary>Lines that were set in it before.</summary>
    internal TextRuns Runs { get; } = new();

    /// <summary>Font units per em, 16 to 16384.</summary>
    public int UnitsPerEm { get; }

    /// <summary>
    /// Height of capitals as a share of the em: the top of this font's own 'H', because that is what a ruler finds on the print;
    /// in a font without one the height stated in its table 'OS/2' (sCapHeight), else 0.7.
    /// </summary>
    public double CapHeightShare { get; }

    /// <summary>Height of small letters without ascender as a share of the em: the top of 'x', else OS/2 sxHeight, else 0.5.</summary>
    public double XHeightShare { get; }

    /// <summary>The licence text that comes with a bundled font; null for the user's own.</summary>
    public string? EmbeddedLicence { get; }

    /// <summary>Reads a TrueType, OpenType (also with CFF outlines) or WOFF 1.0 font of at most 20 MB; of a collection, the first face.</summary>
    /// <param name="name">Its name for messages, such as the file's name.</param>
    /// <param name="bytes">The file's bytes.</param>
    /// <param name="span">Where the user asked for it.</param>
    /// <returns>The font; nothing and a finding <c>font-unreadable</c> where it can't be used.</returns>
    public static Checked<Typeface?> FromBytes(string name, ImmutableArray<byte> bytes, SourceSpan? span)
    {
        ArgumentNullException.ThrowIfNull(name);
        var (file, problem) = FontFile.Open(bytes.IsDefault ? [] : bytes);
        return file is not null
            ? new(new Typeface(name, file, licence: null), [])
            : new(null, [Finding.Stop(
                "font-unreadable",
                $"The font \"{name}\" {problem}.",
                "Use a TrueType (.ttf), OpenType (.otf) or WOFF 1.0 (.woff) font of at most 20 MB, or one of the bundled fonts.",
                span)]);
    }

    /// <summary>A font that the program brings itself.</summary>
    internal static Typeface Bundled(string name, ImmutableArray<byte> bytes, string licence)
    {
        var (file, problem) = FontFile.Open(bytes);
        return new(name, file ?? throw new InvalidDataException($"the bundled font {name} {problem}"), licence);
    }

    /// <summary>Size of a font unit in mm where capitals are to be <paramref name="capHeightMm"/> high.</summary>
    internal double MmPerUnit(double capHeightMm) => capHeightMm / (CapHeightShare * UnitsPerEm);

    /// <summary>Whether a glyph has outlines, none on purpose (a space), or damaged ones.</summary>
    internal GlyphState StateOf(uint glyph) => Contours(glyph) switch
    {
        null => GlyphState.Damaged,
        { IsEmpty: true } => GlyphState.Blank,
        _ => GlyphState.Drawn,
    };

    /// <summary>A glyph at its final size with its origin at (0, 0).</summary>
    internal Region<ItemSpace> Glyph(uint glyph, double capHeightMm, double chordErrorMm)
    {
        if (_glyphs.TryGetValue((glyph, capHeightMm, chordErrorMm), out var known))
        {
            return known;
        }

        var mmPerUnit = MmPerUnit(capHeightMm);
        var region = Region<ItemSpace>.FromOutlines((Contours(glyph) ?? []).Select(contour => contour.Flatten(mmPerUnit, chordErrorMm)));
        if (_glyphs.Count >= RememberedGlyphs)
        {
            _glyphs.Clear();
        }

        _glyphs[(glyph, capHeightMm, chordErrorMm)] = region;
        return region;
    }

    /// <summary>Turns characters into glyphs with their places, in font units and in the order they stand from left to right.</summary>
    /// <param name="characters">Code points; a glyph's cluster is the index of its first one.</param>
    /// <param name="features">OpenType features switched on or off beyond the usual ones.</param>
    internal ImmutableArray<PlacedGlyph> Shape(ReadOnlySpan<uint> characters, IReadOnlyList<Feature> features)
    {
        using var buffer = new HarfBuzzSharp.Buffer();
        buffer.AddUtf32(characters);

        buffer.Language = Undetermined;
        buffer.GuessSegmentProperties();
        if (buffer.Script == Script.Invalid || buffer.Script == Script.Common || buffer.Script == Script.Unknown)
        {
            // Figures and signs alone name no script; they are kerned as among Latin letters.
            buffer.Script = Script.Latin;
        }

        lock (_native)
        {
            _font.Shape(buffer, features, ["ot"]);
        }

        var infos = buffer.GetGlyphInfoSpan();
        var positions = buffer.GetGlyphPositionSpan();
        var glyphs = ImmutableArray.CreateBuilder<PlacedGlyph>(infos.Length);
        for (var index = 0; index < infos.Length; index++)
        {
            glyphs.Add(new(
                infos[index].Codepoint, (int)infos[index].Cluster, positions[index].XAdvance, positions[index].XOffset, positions[index].YOffset));
        }

        GC.KeepAlive(this);
        return glyphs.MoveToImmutable();
    }

    // Blob.FromStream keeps the address of a managed array that the collector may move; a duplicate is HarfBuzz's own.
    private static Blob Copy(ImmutableArray<byte> bytes)
    {
        var pinned = GCHandle.Alloc(ImmutableCollectionsMarshal.AsArray(bytes), GCHandleType.Pinned);
        try
        {
            var blob = new Blob(pinned.AddrOfPinnedObject(), bytes.Length, MemoryMode.Duplicate);
            blob.MakeImmutable();
            return blob;
        }
        finally
        {
            pinned.Free();
        }
    }

    private ImmutableArray<GlyphContour>? Contours(uint glyph)
    {
        if (_contours.TryGetValue(glyph, out var known))
        {
            return known;
        }

        lock (_native)
        {
            var contours = GlyphPen.Draw(_font, glyph);
            GC.KeepAlive(this);
            return _contours[glyph] = contours;
        }
    }

    private double? HeightShare(char letter, ReadOnlySpan<byte> os2, int offset)
    {
        double units = 0;
        if (_font.TryGetNominalGlyph(letter, out var glyph) && Contours(glyph) is { IsEmpty: false } contours)
        {
            units = contours.Max(contour => contour.Flatten(mmPerUnit: 1, Resolution.ChordErrorMm).Points.Max(point => point.YMm));
        }

        // OS/2 has these two heights since its version 2.
        if (!Usable(units) && os2.Length >= 90 && BigEndian.U16(os2, 0) >= 2)
        {
            units = BigEndian.I16(os2, offset);
        }

        return Usable(units) ? units / UnitsPerEm : null;
    }

    private bool Usable(double units) => units > 0.05 * UnitsPerEm && units < 4 * UnitsPerEm;
}
