using System;
using System.IO;

namespace Lampblack.Host;

/// <summary>A line to a panel as a stream of bytes.</summary>
public interface IPanelPort : IDisposable
{
    /// <summary>Waits a little for bytes.</summary>
    /// <param name="buffer">Where they go.</param>
    /// <returns>How many came; 0 where none did in about 200 ms.</returns>
    /// <exception cref="IOException">The line is gone.</exception>
    int Read(byte[] buffer);

    /// <summary>Sends bytes.</summary>
    /// <param name="bytes">The bytes.</param>
    /// <exception cref="IOException">The line is gone.</exception>
    void Write(ReadOnlySpan<byte> bytes);
}
