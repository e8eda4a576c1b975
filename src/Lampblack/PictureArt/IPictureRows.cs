using System;

namespace Lampblack.PictureArt;

/// <summary>Hands on a picture's stored rows, the first one first.</summary>
internal interface IPictureRows : IDisposable
{
    /// <summary>Fills some whole rows.</summary>
    /// <exception cref="PictureFault">The file ends early or is damaged.</exception>
    void Read(Span<byte> rows);
}
