using System;

namespace Lampblack.Calibration;

/// <summary>What a calibration sheet says of itself in a row of cells, on both sides: which copy it is, on which paper, in which version, and whether its back was turned by 180 degrees for the printer.</summary>
/// <param name="Copy">Number of the copy, 1 to 255.</param>
/// <param name="Paper">Place of the paper in <see cref="Quantities.PaperSize.All"/>, 0 to 15.</param>
/// <param name="Version">Version of the sheet's layout, 0 to 15.</param>
/// <param name="IsHalfTurned">Whether the page of the back was turned by 180 degrees.</param>
/// <param name="IsBack">Whether it is the back's.</param>
public sealed record SheetCode(int Copy, int Paper, int Version, bool IsHalfTurned, bool IsBack)
{
    /// <summary>How many cells the row has: one that is always set, 18 of what is said, 8 that prove them, and a clear and a set one, so that the row has a beginning and an end.</summary>
    public const int Cells = 29;

    /// <summary>Length of a cell along the row.</summary>
    public const double CellLengthMm = 2;

    /// <summary>Height of a cell.</summary>
    public const double CellHeightMm = 3;

    /// <summary>Air around the row: black on the front, clear for the back's.</summary>
    public const double AirMm = 2;

    private const int DataBits = 18;
    private const int ProofBits = 8;

    /// <summary>The cells, bit 0 first (leftmost in front view); set where they stand out of what is around them.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A number is too large for its cells.</exception>
    public int ToCells()
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(Copy is >= 0 and <= 255 && Paper is >= 0 and <= 15 && Version is >= 0 and <= 15, true, nameof(Copy));
        var data = Copy | (Paper << 8) | (Version << 12) | ((IsHalfTurned ? 1 : 0) << 16) | ((IsBack ? 1 : 0) << 17);
        return 1 | (data << 1) | (Proof(data) << (1 + DataBits)) | (1 << (Cells - 1));
    }

    /// <summary>What cells say; null where they are not a row of a calibration sheet.</summary>
    /// <param name="cells">As <see cref="ToCells"/> gives them.</param>
    public static SheetCode? Read(int cells)
    {
        var data = (cells >> 1) & ((1 << DataBits) - 1);
        SheetCode code = new(data & 255, (data >> 8) & 15, (data >> 12) & 15, ((data >> 16) & 1) != 0, ((data >> 17) & 1) != 0);
        return code.ToCells() == cells ? code : null;
    }

    /// <summary>CRC-8 with the polynomial x^8 + x^2 + x + 1 (ITU-T I.432.1, 1999, clause 7.3.2.2), from the highest bit on; 0x55 is added as it is there, so that all clear is no code.</summary>
    private static int Proof(int data)
    {
        var rest = data << ProofBits;
        for (var bit = DataBits + ProofBits - 1; bit >= ProofBits; bit--)
        {
            if (((rest >> bit) & 1) != 0)
            {
                rest ^= 0x107 << (bit - ProofBits);
            }
        }

        return rest ^ 0x55;
    }
}
