namespace Lampblack.Shells.Tests.Workshop;

/// <summary>Small invented desks.</summary>
internal static class Desks
{
    public const string Plain = """
        # A pump's board; invented.
        lampblack = 1
        title = "Pump board"

        [lighting]
        colour = "cool-white"   # for the cellar

        [[panel]]
        id = "main"
        size = [120, 70]
        corner = 3

          [[panel.control]]
          id = "pump"
          part = "toggle-mini-on-on"
          at = [30, 25]   # beside the door
          legend = "PUMP"
          states = ["ON", "OFF"]

          [[panel.control]]
          id = "heat"
          part = "pot-9mm"
          at = [80, 28]
          legend = "HEAT"
          dial = { from = 0, to = 10, major = 2, ranges = [{ from = 8, to = 10, ink = "red" }] }

          [[panel.legend]]
          id = "cold"
          text = "COLD"
          at = [30, 55]
          height = 6
          ink = "blue"

        """;
}
