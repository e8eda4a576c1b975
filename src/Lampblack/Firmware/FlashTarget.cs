using System.Collections.Immutable;
using Lampblack.Parts;

namespace Lampblack.Firmware;

/// <summary>A chip as its boot loader sees it. From the chips' data sheets, from memory; avrdude's tables agree.</summary>
/// <param name="Chip">The chip.</param>
/// <param name="Signature">Three bytes by which every chip says what it is.</param>
/// <param name="PageBytes">Bytes of flash that are written at once.</param>
/// <param name="BootAddress">Where the boot loader may begin; nothing from here on is ever written.</param>
public sealed record FlashTarget(ControllerChip Chip, ImmutableArray<byte> Signature, int PageBytes, int BootAddress)
{
    /// <summary>The target for a chip.</summary>
    public static FlashTarget Of(ControllerChip chip) => chip switch
    {
        ControllerChip.ATmega2560 => new(chip, [0x1E, 0x98, 0x01], 256, 0x3E000),
        ControllerChip.ATmega328P => new(chip, [0x1E, 0x95, 0x0F], 128, 0x7000),
        _ => new(chip, [0x1E, 0x95, 0x87], 128, 0x7000),
    };
}
