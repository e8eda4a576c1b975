using System.Collections.Immutable;
using Lampblack.Printers;

namespace Lampblack.Calibration;

/// <summary>What a look at a sheet has taught.</summary>
/// <param name="File">The printer file with it; the file as it was where nothing could be learned.</param>
/// <param name="Words">What was learned and what comes next, in plain sentences.</param>
/// <param name="Register">Where side 2 lands, where something was learned of it.</param>
/// <param name="Keeper">The best sheet of a bracket, where one was read.</param>
public sealed record Learned(PrinterFile File, ImmutableArray<string> Words, LearnedRegister? Register, LearnedKeeper? Keeper);

/// <summary>Where side 2 was on the sheet that was read, where the printer puts it, and what the next build leaves over.</summary>
/// <param name="OnSheetRightMm">How far side 2 lay to the right on this sheet, at its middle.</param>
/// <param name="OnSheetUpMm">How far it lay up.</param>
/// <param name="OnSheetTurnDegrees">How far it was turned, counter-clockwise.</param>
/// <param name="Estimate">Where the printer puts side 2 with nothing undone.</param>
/// <param name="LeftMm">What the next build leaves at the worst corner, 19 times out of 20.</param>
/// <param name="LeftAfterAnotherMm">What would be left after another sheet.</param>
public sealed record LearnedRegister(
    double OnSheetRightMm, double OnSheetUpMm, double OnSheetTurnDegrees, RegisterEstimate Estimate, double LeftMm, double LeftAfterAnotherMm)
{
    /// <summary>Whether another sheet is worth it.</summary>
    public bool WantsAnother => LeftMm > Outlook.GoodMm && LeftMm - LeftAfterAnotherMm > Outlook.WorthMm;
}

/// <summary>The best sheet of a bracket.</summary>
/// <param name="Number">Its number, from 1 to 9.</param>
/// <param name="OffMm">How far its mask lies off.</param>
public sealed record LearnedKeeper(int Number, double OffMm);
