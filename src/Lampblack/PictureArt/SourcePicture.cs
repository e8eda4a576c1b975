using System;

namespace Lampblack.PictureArt;

/// <summary>A picture that was read once from end to end and found sound; its dots are unpacked again where they are needed.</summary>
public sealed class SourcePicture
{
    private readonly ReadOnlyMemory<byte> _file;
    private readonly Func<ReadOnlyMemory<byte>, IPictureRows> _open;

    internal SourcePicture(string fileName, ReadOnlyMemory<byte> file, PictureHeader header, Census census, Func<ReadOnlyMemory<byte>, IPictureRows> open)
    {
        FileName = fileName;
        Header = header;
        Census = census;
        _file = file;
        _open = open;
        var (x, y) = PictureSize.Plausible(header.DotsPerInchX, header.DotsPerInchY);
        (WidthPx, HeightPx) = header.Turn.Size(header.Width, header.Height);
        (StatedWidthMm, StatedHeightMm) = header.Turn.SwapsSides ? (header.Height * 25.4 / y, header.Width * 25.4 / x) : (header.Width * 25.4 / x, header.Height * 25.4 / y);
    }

    /// <summary>Its name, as the user gave it.</summary>
    public string FileName { get; }

    /// <summary><c>PNG</c> or <c>JPEG</c>, by its contents.</summary>
    public string Format => Header.Format;

    /// <summary>Dots of a row, upright.</summary>
    public int WidthPx { get; }

    /// <summary>Rows, upright.</summary>
    public int HeightPx { get; }

    /// <summary>The width that the file states by its resolution; null where it states none that can be meant.</summary>
    public double? StatedWidthMm { get; }

    /// <summary>The height that the file states by its resolution.</summary>
    public double? StatedHeightMm { get; }

    /// <summary>Whether more than a ten-thousandth of it is transparent.</summary>
    public bool IsTransparent => Census.Transparent > Census.Dots * 1e-4;

    internal PictureHeader Header { get; }

    internal Census Census { get; }

    /// <summary>Unpacks all stored rows once more.</summary>
    internal void ForEachBand(Action<Band> work)
    {
        using var rows = _open(_file);
        Band.ForEach(Header, rows, work);
    }
}
