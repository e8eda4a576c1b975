using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Wiring;

/// <content>Pins kept for displays and pixels.</content>
internal sealed partial class PinTrial
{
    /// <summary>A pin for each data line: the one of an earlier plan, else the chip's own pins for two wires where the terminal is one of them, else any.</summary>
    private ImmutableArray<PlannedDataLine>? DataLines()
    {
        var lines = _task.Needs.Where(need => need.Kind == WiredKind.Data).SelectMany(need => need.DataTerminals.Select(terminal => (need.Id, Terminal: terminal))).ToList();
        var kept = lines.ToDictionary(line => line, line => _before?.DataLines.FirstOrDefault(old => (old.ItemId, old.Terminal) == line) is { } old && _pool.Take(old.Pin, _ => true) ? old.Pin : null);
        var planned = ImmutableArray.CreateBuilder<PlannedDataLine>();
        foreach (var line in lines)
        {
            if ((kept[line] ?? _pool.TwoWire(line.Terminal) ?? _pool.Input() ?? _pool.Output()) is not { } pin)
            {
                return null;
            }

            planned.Add(new(line.Id, line.Terminal, pin));
        }

        return planned.ToImmutable();
    }
}
