namespace Lampblack.Wiring;

/// <summary>How a chip with USB of its own shows itself to the computer: as a game controller.</summary>
/// <param name="VendorId">The maker's number, 1 to 65535. Who owns one says so; none is free to use.</param>
/// <param name="ProductId">The number that the maker gave this panel, 1 to 65535.</param>
/// <param name="EncodersStrike">Whether an encoder strikes two buttons, one for each way, in place of moving an axis.</param>
public sealed record UsbPad(int VendorId, int ProductId, bool EncodersStrike);
