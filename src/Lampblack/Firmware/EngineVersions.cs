namespace Lampblack.Firmware;

/// <summary>Versions of what has to fit together. Each counts up when it changes so that the older doesn't understand it.</summary>
public static class EngineVersions
{
    /// <summary>The engine in the images.</summary>
    public const int Engine = 3;

    /// <summary>The lowest that reads a table with a meter.</summary>
    public const int EngineWithMeters = 3;

    /// <summary>The lowest that reads a table with a word of USB.</summary>
    public const int EngineWithUsb = 2;

    /// <summary>The lowest that reads a table with no word of USB.</summary>
    public const int EngineWithoutUsb = 1;

    /// <summary>The form of the desk's table.</summary>
    public const int Table = 1;

    /// <summary>The frames on the serial line.</summary>
    public const int Link = 1;
}
