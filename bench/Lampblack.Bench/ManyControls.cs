using System;
using System.Globalization;
using System.Text;

namespace Lampblack.Bench;

/// <summary>Writes the text of a desk with many controls, always the same for the same numbers. All names and values are invented.</summary>
internal static class ManyControls
{
    private const int Columns = 10;
    private const int Rows = 10;
    private const double AcrossMm = 17;
    private const double UpMm = 24;
    private const double BorderMm = 5;

    private static readonly string[] Legends =
        ["SHUTTER", "LAMP", "NORTH", "SIGNAL", "POINTS", "HEATER", "FOCUS", "GUIDE", "MOUNT", "YARD", "KILN", "DAMPER", "FLAT", "PARK", "HOME", "TRACK"];

    private static readonly string[] States = ["\"ON\", \"OFF\"", "\"OPEN\", \"SHUT\"", "\"FAST\", \"SLOW\"", "\"AUTO\", \"HAND\""];

    /// <summary>A desk of panels of 180 x 250 mm, each with a hundred controls; the last panel has what is left.</summary>
    /// <param name="controls">How many controls in all; 1 or more.</param>
    public static string OnA4(int controls = 400)
    {
        var text = Head("Many controls, A4");
        for (var first = 0; first < controls; first += Columns * Rows)
        {
            Panel(text, first / (Columns * Rows), (Columns * AcrossMm) + (2 * BorderMm), (Rows * UpMm) + (2 * BorderMm));
            for (var index = first; index < Math.Min(controls, first + (Columns * Rows)); index++)
            {
                var place = index - first;
                Control(text, index, BorderMm + (AcrossMm * ((place % Columns) + 0.5)), BorderMm + (UpMm * ((place / Columns) + 0.5)));
            }
        }

        return text.ToString();
    }

    /// <summary>A desk of one panel of 280 x 400 mm with 400 controls: 16 across, 25 up.</summary>
    public static string OnA3()
    {
        const double Wide = 280;
        const double High = 400;
        var text = Head("Many controls, A3");
        Panel(text, 0, Wide, High);
        for (var index = 0; index < 400; index++)
        {
            Control(text, index, Wide / 16 * ((index % 16) + 0.5), High / 25 * ((index / 16) + 0.5), close: true);
        }

        return text.ToString();
    }

    private static StringBuilder Head(string title) => new(Invariant($"lampblack = 1\ntitle = \"{title}\"\norder = \"A\"\n"));

    private static void Panel(StringBuilder text, int number, double widthMm, double heightMm) => text.Append(Invariant(
        $"\n[[panel]]\nid = \"panel-{number + 1}\"\ntitle = \"PANEL {number + 1}\"\nsize = [{widthMm}, {heightMm}]\ncorner = 4\ntext = {{ font = \"barlow-condensed-semibold\", height = 2 }}\n"));

    /// <summary>Three toggles with two states to one potentiometer with a dial.</summary>
    private static void Control(StringBuilder text, int index, double xMm, double yMm, bool close = false)
    {
        var legend = Invariant($"{Legends[index % Legends.Length]} {(index / Legends.Length) + 1}");
        text.Append(Invariant($"\n  [[panel.control]]\n  id = \"c{index + 1}\"\n  at = [{xMm}, {yMm}]\n  legend = \"{legend}\"\n"));
        if (index % 4 == 3 && !close)
        {
            text.Append("  part = \"pot-9mm\"\n  side = \"below\"\n  gap = -2\n  dial = { from = 0, to = 10, major = 2, minor = 1, radius = 6, numeral-height = 1.6 }\n");
        }
        else
        {
            text.Append(Invariant($"  part = \"toggle-{(close ? "submini" : "mini")}-on-on\"\n  states = [{States[index % States.Length]}]\n"));
            text.Append(close ? "  gap = 0.3\n  state-height = 1.5\n" : "  gap = 0.5\n");
        }
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
