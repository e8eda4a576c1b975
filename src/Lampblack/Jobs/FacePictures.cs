using System.Collections.Immutable;

namespace Lampblack.Jobs;

/// <summary>How a whole picture of a panel's face lies in dots: column 0 at the panel's left edge, row 0 at its upper edge.</summary>
/// <param name="WidthPx">Dots in a row.</param>
/// <param name="HeightPx">Rows.</param>
/// <param name="MmPerDot">Side of a dot, in mm.</param>
public sealed record FaceFrame(int WidthPx, int HeightPx, double MmPerDot);

/// <summary>A panel's face, or a window of it, by day and lit, from which every room between noon and midnight is mixed in linear light.</summary>
/// <param name="LeftPx">Its first column in the whole picture.</param>
/// <param name="TopPx">Its first row.</param>
/// <param name="WidthPx">Columns.</param>
/// <param name="HeightPx">Rows.</param>
/// <param name="DayPng">The face by day, lamps off.</param>
/// <param name="LitPng">The face lit, in a dark room.</param>
public sealed record FacePictures(int LeftPx, int TopPx, int WidthPx, int HeightPx, ImmutableArray<byte> DayPng, ImmutableArray<byte> LitPng);

/// <summary>How day and lit picture are mixed for a room: the exposure of the lit picture as the core has it.</summary>
/// <param name="PaperReflectance">What bare paper throws back.</param>
/// <param name="PaperTransmittance">What passes it.</param>
/// <param name="NightRoomShare">The room's light in the lit picture, as a share of the light on the back.</param>
/// <param name="OpenLegendShare">Linear light of an open legend in the lit picture.</param>
public sealed record RoomMixing(double PaperReflectance, double PaperTransmittance, double NightRoomShare, double OpenLegendShare);

/// <summary>Two filters of a panel's light, front and mask, each to be laid over the other in any register; column 0 at the panel's left edge, row 0 at its upper edge.</summary>
/// <param name="FrontPng">What the front lets through.</param>
/// <param name="MaskPng">What the mask lets through, seen from the front.</param>
/// <param name="HolesPng">What is cut away, white.</param>
/// <param name="MmPerDot">Side of a dot, in mm.</param>
/// <param name="ShiftMm">How far side 2 may lie off on this printer, either way, on 99 of 100 sheets.</param>
/// <param name="TurnDegrees">How far it may be turned, either way, on 99 of 100 sheets.</param>
/// <param name="IsLearned">Whether that was learned from this printer.</param>
public sealed record HeldToLamp(
    ImmutableArray<byte> FrontPng, ImmutableArray<byte> MaskPng, ImmutableArray<byte> HolesPng, double MmPerDot, double ShiftMm, double TurnDegrees, bool IsLearned);
