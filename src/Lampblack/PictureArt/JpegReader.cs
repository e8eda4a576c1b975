using System;
using System.Buffers.Binary;
using System.Collections.Immutable;
using Lampblack.Findings;
using SkiaSharp;

namespace Lampblack.PictureArt;

/// <summary>Reads the markers of a JPEG (ITU-T T.81, annex B; JFIF: T.871); its dots are left to the library.</summary>
internal static class JpegReader
{
    private static readonly byte[] _exif = [.. "Exif\0\0"u8];
    private static readonly byte[] _jfif = [.. "JFIF\0"u8];
    private static readonly byte[] _icc = [.. "ICC_PROFILE\0"u8];

    /// <summary>What was gathered on the way through the file.</summary>
    private sealed class Seen
    {
        public int Width { get; set; }

        public int Height { get; set; }

        public int Components { get; set; }

        public bool IsProgressive { get; set; }

        public int Scans { get; set; }

        public long ScanBytes { get; set; }

        public bool HasProfile { get; set; }

        public bool IsProfileUsable { get; set; } = true;

        public double? DotsPerInchX { get; set; }

        public double? DotsPerInchY { get; set; }

        public ExifTags Exif { get; set; } = ExifTags.None;
    }

    public static PictureHeader Read(ReadOnlySpan<byte> file, string fileName)
    {
        var seen = new Seen();
        Walk(file, fileName, seen);
        var blocks = ((seen.Width + 7L) / 8) * ((seen.Height + 7L) / 8);
        if (seen.Scans == 0 || seen.ScanBytes * 8 < blocks)
        {
            throw PictureFault.CutOff(fileName); // each block of 8 x 8 dots takes one bit at the very least
        }

        var notes = ImmutableArray.CreateBuilder<Finding>();
        if (seen.Components == 4)
        {
            notes.Add(Finding.Note(
                "art-inks-converted",
                $"{Shown.Quoted(fileName)} is made of four inks; they were turned into sRGB{(seen.HasProfile ? " by its colour profile" : " without a colour profile")}.",
                "Export it with sRGB if its colours come out wrong."));
        }
        else if (!seen.HasProfile)
        {
            notes.Add(PngColour.Assumed(fileName));
        }
        else if (!seen.IsProfileUsable)
        {
            notes.Add(Finding.Note(
                "art-profile-unknown",
                $"{Shown.Quoted(fileName)} carries a colour profile that can't be used; sRGB is taken instead.",
                "Export it with sRGB if its colours come out wrong."));
        }

        return new(
            "JPEG", seen.Width, seen.Height, seen.Exif.Turn, seen.DotsPerInchX ?? seen.Exif.DotsPerInchX, seen.DotsPerInchY ?? seen.Exif.DotsPerInchY,
            seen.Components == 1 ? DotForm.Grey : DotForm.RgbAndNothing, notes.ToImmutable());
    }

    private static void Walk(ReadOnlySpan<byte> file, string fileName, Seen seen)
    {
        var at = 2;
        while (true)
        {
            while (at < file.Length && file[at] != 0xFF)
            {
                at++; // stray bytes between markers are passed over, as readers do
            }

            while (at < file.Length && file[at] == 0xFF)
            {
                at++;
            }

            if (at >= file.Length)
            {
                throw PictureFault.CutOff(fileName);
            }

            var marker = file[at++];
            if (marker == 0xD9)
            {
                return;
            }

            if (marker is 0x00 or 0x01 or 0xD8 or (>= 0xD0 and <= 0xD7))
            {
                continue;
            }

            if (at + 2 > file.Length || at + BinaryPrimitives.ReadUInt16BigEndian(file[at..]) > file.Length)
            {
                throw PictureFault.CutOff(fileName);
            }

            var length = BinaryPrimitives.ReadUInt16BigEndian(file[at..]);
            if (length < 2)
            {
                throw PictureFault.Broken(fileName, "one of its parts has no length");
            }

            Take(marker, file.Slice(at + 2, length - 2), fileName, seen);
            at += length;
            if (marker == 0xDA)
            {
                var end = EndOfScan(file, at);
                (seen.ScanBytes, seen.Scans) = (seen.ScanBytes + end - at, seen.Scans + 1);
                at = end;
                CheckScans(fileName, seen);
            }
        }
    }

    private static void CheckScans(string fileName, Seen seen)
    {
        if (seen.Width == 0)
        {
            throw PictureFault.Broken(fileName, "its rows come before its size");
        }

        if (seen.Scans > PictureLimits.MostScans)
        {
            throw PictureFault.Broken(fileName, "it is built of more than 40 scans, where ten are usual");
        }
    }

    /// <summary>The next marker that is no part of the packed dots: an FF before anything but 0, the restart marks and another FF.</summary>
    private static int EndOfScan(ReadOnlySpan<byte> file, int at)
    {
        while (true)
        {
            var step = file[at..].IndexOf((byte)0xFF);
            if (step < 0 || at + step + 1 >= file.Length)
            {
                return file.Length;
            }

            at += step;
            if (file[at + 1] is not (0x00 or 0xFF or (>= 0xD0 and <= 0xD7)))
            {
                return at;
            }

            at++;
        }
    }

    private static void Take(byte marker, ReadOnlySpan<byte> data, string fileName, Seen seen)
    {
        switch (marker)
        {
            case 0xC0 or 0xC1 or 0xC2 when data.Length >= 6:
                Frame(marker, data, fileName, seen);
                break;
            case >= 0xC3 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC):
                throw PictureFault.Form(fileName, "is a JPEG of a rare kind (lossless, in steps or arithmetic)", "Save it as baseline JPEG or as PNG.");
            case 0xE0 when data.StartsWith(_jfif) && data.Length >= 12:
                var perInch = data[7] switch { 1 => 1.0, 2 => 2.54, _ => double.NaN };
                seen.DotsPerInchX = Known(BinaryPrimitives.ReadUInt16BigEndian(data[8..]) * perInch);
                seen.DotsPerInchY = Known(BinaryPrimitives.ReadUInt16BigEndian(data[10..]) * perInch);
                break;
            case 0xE1 when data.StartsWith(_exif):
                seen.Exif = ExifTags.Read(data[_exif.Length..]);
                break;
            case 0xE2 when data.StartsWith(_icc):
                seen.HasProfile = true;
                seen.IsProfileUsable = IsUsable(data[_icc.Length..], seen);
                break;
        }
    }

    private static double? Known(double perInch) => perInch > 1 ? perInch : null;

    // A profile in one part can be tried; the first of several is at least looked at: ICC.1, 7.2, "acsp" in bytes 36 to 39.
    private static bool IsUsable(ReadOnlySpan<byte> part, Seen seen)
    {
        if (part.Length < 2 || part[0] != 1)
        {
            return seen.IsProfileUsable;
        }

        var profile = part[2..];
        if (profile.Length < 128 || !profile.Slice(36, 4).SequenceEqual("acsp"u8))
        {
            return false;
        }

        if (part[1] != 1 || seen.Components == 4 || !profile.Slice(16, 4).SequenceEqual("RGB "u8))
        {
            return true;
        }

        using var space = SKColorSpace.CreateIcc(profile.ToArray());
        return space is not null;
    }

    private static void Frame(byte marker, ReadOnlySpan<byte> data, string fileName, Seen seen)
    {
        if (seen.Width > 0)
        {
            throw PictureFault.Broken(fileName, "it says its size twice");
        }

        (seen.Height, seen.Width, seen.Components) = (BinaryPrimitives.ReadUInt16BigEndian(data[1..]), BinaryPrimitives.ReadUInt16BigEndian(data[3..]), data[5]);
        seen.IsProgressive = marker == 0xC2;
        PictureLimits.Check(fileName, seen.Width, seen.Height, seen.IsProgressive);
        if (data[0] != 8 || seen.Components is not (1 or 3 or 4))
        {
            throw PictureFault.Form(fileName, $"has {data[0]} bits in each of {seen.Components} colours", "Save it with 8 bits and three colours, or as PNG.");
        }
    }
}
