namespace Lampblack.Parts;

/// <summary>Where the catalogue's figures come from. Data sheets are named by what they describe, never by who made it.</summary>
internal static class Origins
{
    public const string FromMemory = "from memory";
    public const string CommonPractice = "common practice, no source";
    public const string Iso273 = "ISO 273:1979, medium series (H13)";
    public const string Iso7089 = "ISO 7089 washer (from memory)";
    public const string Iec60947 = "IEC 60947-5-1 (from memory)";
    public const string Iec61554 = "IEC 61554 (from memory)";
    public const string Din43700 = "DIN 43700, front sizes";
    public const string BarKnob = "MIL-STD-1472E fig. 4, least length of a bar knob";
    public const string SwitchHardware = "data sheet of nuts and rings for 1/4-40 and 15/32-32 bushings";
    public const string MeasuredToggles = "published table of measured miniature toggles";
    public const string Button16 = "16 mm push-button data sheet, p. 25";
    public const string Rotary18 = "18 mm rotary switch data sheet, front-panel cut-out";
    public const string Rotary1Inch = "1 in rotary switch data sheet";
    public const string PanelControl = "data sheet of a rotary potentiometer with M7 bushing, p. 3";
    public const string MeasuredPots = "published table of measured potentiometers and encoders";
    public const string TenTurn = "10-turn potentiometer data sheet, p. 2";
    public const string Encoder11 = "11 mm encoder data sheet";
    public const string Slider45 = "45 mm slide potentiometer data sheet";
    public const string Pixel12 = "maker's guide to 12 mm pixels";
    public const string MeasuredMeters = "published table of measured panel meters";
    public const string MeasuredDisplays = "published table of measured displays";
    public const string SmallDisplay = "review with measures of a 0.96 in display module";
    public const string CharacterDisplay = "mounting guide for character displays";

    /// <summary>A figure that was not looked up: measure the part before drilling.</summary>
    public static Figure Memory(double mm) => new(mm, FromMemory);

    /// <summary>A figure that makers use without a text behind it.</summary>
    public static Figure Practice(double mm) => new(mm, CommonPractice);

    /// <summary>A size in inches, exactly (1 in is 25.4 mm).</summary>
    public static Figure Inch(int numerator, int denominator) =>
        new(numerator * 25.4 / denominator, $"{numerator}/{denominator} in exactly (1 in = 25.4 mm)");

    /// <summary>A round hole or thing.</summary>
    public static RoundCutout Round(double mm, string source) => new(new Figure(mm, source));

    /// <summary>An upright rectangle with corners as a file leaves them.</summary>
    public static RectangleCutout Box(double widthMm, double heightMm, string source, double cornerMm = 0) =>
        new(new(widthMm, source), new(heightMm, source), Practice(cornerMm));

    /// <summary>The room behind the panel.</summary>
    public static Body Behind(double widthMm, double heightMm, double depthMm, string source = FromMemory) =>
        new(new(widthMm, source), new(heightMm, source), new(depthMm, source));

    /// <summary>Two holes for screws, mirrored through the middle.</summary>
    public static ExtraHole Screw(double xMm, double yMm, string thread, double holeMm) =>
        new(xMm, yMm, new(holeMm, Iso273), $"screw {thread}");
}
