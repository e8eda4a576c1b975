using System;
using System.Threading.Tasks;

namespace Lampblack.PictureArt;

/// <summary>Some stored rows that were read together.</summary>
/// <param name="First">The first one's number.</param>
/// <param name="Count">How many.</param>
/// <param name="Dots">Their dots; more room may follow.</param>
/// <param name="RowBytes">Bytes of a row.</param>
/// <param name="Form">How the dots are written.</param>
internal readonly record struct Band(int First, int Count, byte[] Dots, int RowBytes, DotForm Form)
{
    private const int WantedBytes = 1 << 20;

    public ReadOnlySpan<byte> Row(int index) => Dots.AsSpan(index * RowBytes, RowBytes);

    /// <summary>Reads all rows; while one band is worked on, the next is read.</summary>
    /// <param name="header">The picture.</param>
    /// <param name="rows">Where they come from.</param>
    /// <param name="work">Called for one band after the other, never for two at once.</param>
    public static void ForEach(PictureHeader header, IPictureRows rows, Action<Band> work)
    {
        var rowBytes = header.Width * header.Form.Bytes;
        var most = Math.Clamp(WantedBytes / rowBytes, 1, header.Height);
        var rooms = new[] { new byte[most * rowBytes], new byte[most * rowBytes] };
        var running = Task.CompletedTask;
        try
        {
            for (int first = 0, turn = 0; first < header.Height; first += most, turn ^= 1)
            {
                var count = Math.Min(most, header.Height - first);
                rows.Read(rooms[turn].AsSpan(0, count * rowBytes));
                running.GetAwaiter().GetResult();
                var band = new Band(first, count, rooms[turn], rowBytes, header.Form);
                running = Task.Run(() => work(band));
            }
        }
        finally
        {
            running.GetAwaiter().GetResult();
        }
    }
}
