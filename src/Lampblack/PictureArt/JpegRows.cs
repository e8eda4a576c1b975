using System;
using System.Runtime.InteropServices;
using SkiaSharp;

namespace Lampblack.PictureArt;

/// <summary>Decodes a JPEG some rows at a time, into sRGB; colour profiles and four inks are the library's work.</summary>
internal sealed class JpegRows : IPictureRows
{
    private readonly string _fileName;
    private readonly SKCodec? _codec;
    private readonly SKImageInfo _info;
    private GCHandle _held;

    public JpegRows(ReadOnlyMemory<byte> file, PictureHeader header, string fileName)
    {
        _fileName = fileName;
        var bytes = MemoryMarshal.TryGetArray(file, out var segment) ? segment : new ArraySegment<byte>(file.ToArray());
        _held = GCHandle.Alloc(bytes.Array, GCHandleType.Pinned);
        try
        {
            using var data = SKData.Create(_held.AddrOfPinnedObject() + bytes.Offset, bytes.Count);
            _codec = SKCodec.Create(new SKMemoryStream(data), out _);
            using var srgb = SKColorSpace.CreateSrgb();
            var type = header.Form == DotForm.Grey ? SKColorType.Gray8 : SKColorType.Rgba8888;
            _info = new(header.Width, header.Height, type, SKAlphaType.Opaque, srgb);
            if (_codec is null || _codec.Info.Width != header.Width || _codec.Info.Height != header.Height
                || _codec.StartScanlineDecode(_info) != SKCodecResult.Success)
            {
                throw PictureFault.Broken(fileName, "its dots can't be unpacked");
            }
        }
        catch (PictureFault)
        {
            Dispose();
            throw;
        }
    }

    public void Read(Span<byte> rows)
    {
        var count = rows.Length / _info.RowBytes;
        var room = new byte[rows.Length];
        var held = GCHandle.Alloc(room, GCHandleType.Pinned);
        try
        {
            if (_codec!.GetScanlines(held.AddrOfPinnedObject(), count, _info.RowBytes) < count)
            {
                throw PictureFault.Broken(_fileName, "its rows end early or can't be unpacked");
            }
        }
        finally
        {
            held.Free();
        }

        room.CopyTo(rows);
    }

    public void Dispose()
    {
        _codec?.Dispose();
        if (_held.IsAllocated)
        {
            _held.Free();
        }
    }
}
