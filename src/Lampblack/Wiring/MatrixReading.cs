using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;

namespace Lampblack.Wiring;

/// <summary>What a matrix reads: each column is pulled low in turn, and every row that gets low counts as a closed contact.</summary>
public static class MatrixReading
{
    /// <summary>
    /// Which contacts read closed while some are. With a diode at every crossing those that are; without, current also finds its way from the column through
    /// closed contacts to other rows, and back over other columns: whatever hangs together with the column reads closed.
    /// </summary>
    /// <param name="plan">A controller's plan.</param>
    /// <param name="closed">For each of its contacts whether it is closed. Those that are not in the matrix read as they are.</param>
    public static ImmutableArray<bool> Of(ControllerPlan plan, ImmutableArray<bool> closed)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (plan.Diodes)
        {
            return closed;
        }

        // Rows are numbered from 0, columns after them; what is joined belongs to one group.
        var groups = Enumerable.Range(0, plan.Rows.Length + plan.Columns.Length).ToArray();
        foreach (var (contact, isClosed) in plan.Contacts.Zip(closed))
        {
            if (isClosed && contact.Place is MatrixInput place)
            {
                Join(groups, place.Row, plan.Rows.Length + place.Column);
            }
        }

        return [.. plan.Contacts.Zip(closed, (contact, isClosed) => contact.Place is MatrixInput place ? groups[place.Row] == groups[plan.Rows.Length + place.Column] : isClosed)];
    }

    private static void Join(IList<int> groups, int one, int two)
    {
        var (kept, lost) = (groups[one], groups[two]);
        for (var index = 0; index < groups.Count; index++)
        {
            if (groups[index] == lost)
            {
                groups[index] = kept;
            }
        }
    }
}
