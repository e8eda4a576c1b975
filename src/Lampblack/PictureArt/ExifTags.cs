using System;
using System.Buffers.Binary;

namespace Lampblack.PictureArt;

/// <summary>The few things of a picture's EXIF block that matter here.</summary>
/// <param name="Turn">How to turn the picture.</param>
/// <param name="DotsPerInchX">Its resolution across, where stated.</param>
/// <param name="DotsPerInchY">Its resolution downwards, where stated.</param>
internal readonly record struct ExifTags(Turn Turn, double? DotsPerInchX, double? DotsPerInchY)
{
    public static ExifTags None { get; } = new(Turn.None, null, null);

    /// <summary>Reads the first directory of a TIFF block; whatever is not as it should be is left out.</summary>
    /// <remarks>TIFF 6.0: order mark, 42, offset of the directory; twelve bytes each: tag, type, count, value or its offset.</remarks>
    public static ExifTags Read(ReadOnlySpan<byte> tiff)
    {
        if (tiff.Length < 14 || !(tiff[..4] is [0x49, 0x49, 42, 0] or [0x4D, 0x4D, 0, 42]))
        {
            return None;
        }

        var little = tiff[0] == 0x49;
        var directory = Long(tiff, 4, little);
        if (directory > tiff.Length - 2)
        {
            return None;
        }

        var (turn, x, y, unit) = (Turn.None, (double?)null, (double?)null, 2);
        var count = Short(tiff, (int)directory, little);
        for (var index = 0; index < count; index++)
        {
            var at = directory + 2 + (index * 12L);
            if (at + 12 > tiff.Length)
            {
                break;
            }

            var entry = tiff.Slice((int)at, 12);
            var (tag, type) = (Short(entry, 0, little), Short(entry, 2, little));
            switch (tag, type)
            {
                case (0x0112, 3) when Short(entry, 8, little) is >= 1 and <= 8 and var number:
                    turn = new(number);
                    break;
                case (0x011A, 5):
                    x = Ratio(tiff, Long(entry, 8, little), little);
                    break;
                case (0x011B, 5):
                    y = Ratio(tiff, Long(entry, 8, little), little);
                    break;
                case (0x0128, 3):
                    unit = Short(entry, 8, little);
                    break;
            }
        }

        var factor = unit switch { 2 => 1, 3 => 2.54, _ => double.NaN };
        return new(turn, x * factor, y * factor);
    }

    private static int Short(ReadOnlySpan<byte> bytes, int at, bool little) =>
        little ? BinaryPrimitives.ReadUInt16LittleEndian(bytes[at..]) : BinaryPrimitives.ReadUInt16BigEndian(bytes[at..]);

    private static uint Long(ReadOnlySpan<byte> bytes, int at, bool little) =>
        little ? BinaryPrimitives.ReadUInt32LittleEndian(bytes[at..]) : BinaryPrimitives.ReadUInt32BigEndian(bytes[at..]);

    private static double? Ratio(ReadOnlySpan<byte> bytes, uint at, bool little) =>
        at <= bytes.Length - 8L && bytes.Length >= 8 ? Long(bytes, (int)at, little) / (double)Long(bytes, (int)at + 4, little) : null;
}
