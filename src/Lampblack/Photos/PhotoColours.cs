using System;
using System.Collections.Immutable;
using System.Threading;
using Lampblack.Imaging;
using Lampblack.PictureArt;

namespace Lampblack.Photos;

/// <summary>Red, green and blue light of a part of a photo.</summary>
/// <param name="Channels">The three, in this order.</param>
internal sealed record PhotoColours(ImmutableArray<LightPlane> Channels)
{
    private static readonly ushort[] Levels = Table();

    /// <summary>Unpacks the photo once more and keeps the part; null where the photo has no colours. It was read before, so nothing of it is in doubt.</summary>
    /// <param name="fileName">The photo's name.</param>
    /// <param name="bytes">PNG or JPEG.</param>
    /// <param name="part">Left, top, right and bottom, in dots of the upright photo.</param>
    /// <param name="cancellation">Ends the work.</param>
    public static PhotoColours? Read(string fileName, ReadOnlyMemory<byte> bytes, (int Left, int Top, int Right, int Bottom) part, CancellationToken cancellation)
    {
        var (header, open) = PictureFile.Open(bytes, fileName);
        if (header.Form.Bytes < 3)
        {
            return null;
        }

        var whole = header.Turn.Size(header.Width, header.Height);
        part = (Math.Max(0, part.Left), Math.Max(0, part.Top), Math.Min(whole.Width, part.Right), Math.Min(whole.Height, part.Bottom));
        var (width, height) = (part.Right - part.Left, part.Bottom - part.Top);
        if (width < 2 || height < 2)
        {
            return null;
        }

        ushort[][] light = [new ushort[width * height], new ushort[width * height], new ushort[width * height]];
        var (start, byColumn, byRow) = header.Turn.Steps(header.Width, header.Height);
        using var rows = open(bytes);
        Band.ForEach(header, rows, band =>
        {
            cancellation.ThrowIfCancellationRequested();
            var step = band.Form.Bytes;
            for (var index = 0; index < band.Count; index++)
            {
                var row = band.Row(index);
                var to = start + ((band.First + index) * byRow);
                for (var at = 0; at + 2 < row.Length; at += step, to += byColumn)
                {
                    var (y, x) = Math.DivRem((int)to, whole.Width);
                    if (x >= part.Left && x < part.Right && y >= part.Top && y < part.Bottom)
                    {
                        var kept = ((y - part.Top) * width) + x - part.Left;
                        for (var channel = 0; channel < 3; channel++)
                        {
                            light[channel][kept] = Levels[row[at + channel]];
                        }
                    }
                }
            }
        });
        return new([.. Array.ConvertAll(light, channel => new LightPlane(channel, width, height, part.Left, part.Top))]);
    }

    private static ushort[] Table()
    {
        var table = new ushort[256];
        for (var code = 0; code < table.Length; code++)
        {
            table[code] = (ushort)(Srgb.Decode((byte)code) * LightPlane.White);
        }

        return table;
    }
}
