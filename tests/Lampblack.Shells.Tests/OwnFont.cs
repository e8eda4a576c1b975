namespace Lampblack.Shells.Tests;

/// <summary>A desk that brings a font along. The font is one of those that are bundled, taken from where the build found it.</summary>
internal static class OwnFont
{
    internal static string Path { get; } =
        System.IO.Path.Combine(LauncherTests.Root(), "fonts/node_modules/@expo-google-fonts/saira-condensed/500Medium/SairaCondensed_500Medium.ttf");

    /// <summary>A desk whose font stands in line 5, column 8; the name must fit between single quotes.</summary>
    internal static string Desk(string file) => $"""
        lampblack = 1

        [[font]]
        name = "mine"
        file = '{file}'

        [[panel]]
        id = "main"
        size = [100, 60]

          [[panel.legend]]
          text = "RELAY"
          font = "mine"
          at = [50, 30]

        """;
}
