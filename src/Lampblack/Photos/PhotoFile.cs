using System;
using System.Globalization;
using System.Threading;
using Lampblack.Findings;
using Lampblack.Imaging;
using Lampblack.PictureArt;

namespace Lampblack.Photos;

/// <summary>Reads a photo's light. What the file says of itself is looked at before anything is unpacked.</summary>
internal static class PhotoFile
{
    private const long FewestDots = 1_900_000;
    private const long MostDots = 52_000_000;

    private static readonly ushort[] Red = Table(0.2126);
    private static readonly ushort[] Green = Table(0.7152);
    private static readonly ushort[] Blue = Table(0.0722);
    private static readonly ushort[] Grey = Table(1);

    /// <summary>The light, or null with a finding.</summary>
    /// <param name="fileName">The photo's name.</param>
    /// <param name="bytes">PNG or JPEG.</param>
    /// <param name="cancellation">Ends the work.</param>
    /// <param name="cut">Takes which dots are as bright as a file can tell; null where nobody asks.</param>
    public static Checked<LightPlane?> Read(string fileName, ReadOnlyMemory<byte> bytes, CancellationToken cancellation, CutDots? cut = null)
    {
        try
        {
            var (header, open) = PictureFile.Open(bytes, fileName);
            var dots = (long)header.Width * header.Height;
            if (dots is < FewestDots or > MostDots)
            {
                return new(null, [Finding.Stop(
                    "photo-size",
                    string.Create(CultureInfo.InvariantCulture, $"{Shown.Quoted(fileName)} has {dots / 1e6:0.0} megapixels; 2 to 50 are needed to measure a sheet"),
                    "send the photo as the camera made it, not a preview or a part of it")]);
            }

            var light = new ushort[dots];
            cut?.Begin(header);
            using var rows = open(bytes);
            Band.ForEach(header, rows, band =>
            {
                cancellation.ThrowIfCancellationRequested();
                Take(header, band, light);
                cut?.Take(band);
            });
            var (width, height) = header.Turn.Size(header.Width, header.Height);
            return new(new(light, width, height), []);
        }
        catch (PictureFault fault)
        {
            return new(null, [Finding.Stop("photo-unreadable", fault.Finding.Message.TrimEnd('.'), "take the photo from the camera once more, as JPEG or PNG")]);
        }
    }

    private static void Take(PictureHeader header, Band band, ushort[] light)
    {
        var (start, byColumn, byRow) = header.Turn.Steps(header.Width, header.Height);
        var step = band.Form.Bytes;
        for (var index = 0; index < band.Count; index++)
        {
            var row = band.Row(index);
            var to = start + ((band.First + index) * byRow);
            if (step == 1)
            {
                foreach (var code in row)
                {
                    light[to] = Grey[code];
                    to += byColumn;
                }
            }
            else
            {
                for (var at = 0; at + 2 < row.Length; at += step)
                {
                    light[to] = (ushort)(Red[row[at]] + Green[row[at + 1]] + Blue[row[at + 2]]);
                    to += byColumn;
                }
            }
        }
    }

    // Rounded down, so that the three together never pass the largest number.
    private static ushort[] Table(double share)
    {
        var table = new ushort[256];
        for (var code = 0; code < table.Length; code++)
        {
            table[code] = (ushort)(Srgb.Decode((byte)code) * share * LightPlane.White);
        }

        return table;
    }
}
