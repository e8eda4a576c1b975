using System;
using System.Collections.Immutable;
using System.IO;
using System.IO.Compression;
using System.Runtime.InteropServices;
using Lampblack.Findings;
using Lampblack.Imaging;
using SkiaSharp;

namespace Lampblack.PictureArt;

/// <summary>Turns a PNG's codes of eight bits into sRGB codes: by its colour profile, by its gamma, or not at all.</summary>
internal sealed class PngColour
{
    private const int LargestProfile = 4_000_000;

    private readonly byte[]? _table;
    private readonly SKColorSpace? _space;

    private PngColour(byte[]? table, SKColorSpace? space)
    {
        _table = table;
        _space = space;
    }

    /// <summary>What the file says of its colours.</summary>
    internal sealed class Found
    {
        public bool IsSrgb { get; set; }

        public double? Gamma { get; set; }

        public ReadOnlyMemory<byte> Profile { get; set; }
    }

    /// <summary>Whether codes stay as they are.</summary>
    public bool IsNone => _table is null && _space is null;

    public static PngColour Of(Found found, bool isGrey, string fileName, ImmutableArray<Finding>.Builder notes)
    {
        if (found.IsSrgb)
        {
            return new(null, null);
        }

        if (!found.Profile.IsEmpty)
        {
            if (Unpacked(found.Profile.Span) is { } profile && OfProfile(profile, isGrey) is { } made)
            {
                return made;
            }

            notes.Add(Finding.Note(
                "art-profile-unknown",
                $"{Shown.Quoted(fileName)} carries a colour profile that can't be used; sRGB is taken instead.",
                "Export it with sRGB if its colours come out wrong."));
            return new(null, null);
        }

        // 0.45455 is what sRGB is commonly written as; only what is really another curve is worked out.
        if (found.Gamma is > 0.1 and < 5 and var gamma && Math.Abs((gamma * 2.2) - 1) > 0.05)
        {
            var table = new byte[256];
            for (var code = 0; code < 256; code++)
            {
                table[code] = Srgb.Code(Math.Pow(code / 255.0, 1 / gamma));
            }

            return new(table, null);
        }

        notes.Add(Assumed(fileName));
        return new(null, null);
    }

    /// <summary>The note that a file says nothing of its colours.</summary>
    public static Finding Assumed(string fileName) => Finding.Note(
        "art-profile-assumed", $"{Shown.Quoted(fileName)} does not say what its colours mean; sRGB is taken, as screens show it.");

    /// <summary>Changes whole dots in place.</summary>
    public void Apply(Span<byte> dots, DotForm form)
    {
        if (_table is { } table)
        {
            for (var index = 0; index < dots.Length; index++)
            {
                dots[index] = form.HasAlpha && index % 4 == 3 ? dots[index] : table[dots[index]];
            }
        }
        else if (_space is not null)
        {
            Convert(dots, form, _space);
        }
    }

    private static void Convert(Span<byte> dots, DotForm form, SKColorSpace space)
    {
        var count = dots.Length / form.Bytes;
        var (from, to) = (new byte[count * 4], new byte[count * 4]);
        for (var index = 0; index < count; index++)
        {
            dots.Slice(index * form.Bytes, 3).CopyTo(from.AsSpan(index * 4));
            from[(index * 4) + 3] = 255;
        }

        var (heldFrom, heldTo) = (GCHandle.Alloc(from, GCHandleType.Pinned), GCHandle.Alloc(to, GCHandleType.Pinned));
        try
        {
            using var source = new SKPixmap(new SKImageInfo(count, 1, SKColorType.Rgba8888, SKAlphaType.Opaque, space), heldFrom.AddrOfPinnedObject(), from.Length);
            using var srgb = SKColorSpace.CreateSrgb();
            source.ReadPixels(new SKImageInfo(count, 1, SKColorType.Rgba8888, SKAlphaType.Opaque, srgb), heldTo.AddrOfPinnedObject(), to.Length);
        }
        finally
        {
            heldFrom.Free();
            heldTo.Free();
        }

        for (var index = 0; index < count; index++)
        {
            to.AsSpan(index * 4, 3).CopyTo(dots[(index * form.Bytes)..]);
        }
    }

    private static PngColour? OfProfile(byte[] profile, bool isGrey)
    {
        using var space = IsFor(profile, isGrey) ? SKColorSpace.CreateIcc(profile) : null;
        if (space is null)
        {
            return null;
        }

        if (!isGrey)
        {
            return space.IsSrgb ? new(null, null) : new(null, SKColorSpace.CreateIcc(profile));
        }

        var greys = new byte[256 * 3];
        for (var index = 0; index < greys.Length; index++)
        {
            greys[index] = (byte)(index / 3);
        }

        Convert(greys, DotForm.Rgb, space);
        var table = new byte[256];
        for (var code = 0; code < 256; code++)
        {
            table[code] = greys[code * 3];
        }

        return new(table, null);
    }

    // ICC.1, 7.2: the data colour space in bytes 16 to 19, the signature in 36 to 39.
    private static bool IsFor(ReadOnlySpan<byte> profile, bool isGrey) =>
        profile.Length > 128 && profile.Slice(16, 4).SequenceEqual(isGrey ? "GRAY"u8 : "RGB "u8) && profile.Slice(36, 4).SequenceEqual("acsp"u8);

    /// <summary>The profile behind its name, a 0 and the packing's number (ISO/IEC 15948, 11.3.3.3).</summary>
    private static byte[]? Unpacked(ReadOnlySpan<byte> chunk)
    {
        var end = chunk.IndexOf((byte)0);
        if (end < 0 || end + 2 >= chunk.Length || chunk[end + 1] != 0)
        {
            return null;
        }

        try
        {
            using var inflate = new ZLibStream(new MemoryStream(chunk[(end + 2)..].ToArray()), CompressionMode.Decompress);
            using var profile = new MemoryStream();
            Span<byte> part = stackalloc byte[4096];
            for (int count; (count = inflate.Read(part)) > 0;)
            {
                profile.Write(part[..count]);
                if (profile.Length > LargestProfile)
                {
                    return null;
                }
            }

            return profile.ToArray();
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }
}
