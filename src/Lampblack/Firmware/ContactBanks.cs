using System.Collections.Generic;
using System.Collections.Immutable;
using System.Linq;
using Lampblack.Parts;
using Lampblack.Wiring;

namespace Lampblack.Firmware;

/// <summary>Up to eight contacts that the engine reads at once.</summary>
/// <param name="There">Bits with a contact.</param>
/// <param name="Steady">Bits read steadily.</param>
/// <param name="Numbers">For each bit the contact's number; 0xFFFF without one.</param>
internal sealed record ContactBank(byte There, byte Steady, ImmutableArray<int> Numbers);

/// <summary>All contacts in the order in which they are read: by column and row port, then pins of their own by port, then chips.</summary>
internal sealed record ContactBanks(
    ImmutableArray<(byte Port, byte Mask)> RowPorts, ImmutableArray<(byte Port, byte Mask)> DirectPorts, ImmutableArray<ContactBank> Banks)
{
    private const int NoContact = 0xFFFF;

    public static ContactBanks Of(ControllerPlan plan)
    {
        var rowPorts = Ports(plan.Rows);
        var directPorts = Ports(plan.Contacts.Select(contact => contact.Place).OfType<DirectInput>().Select(place => place.Pin));
        var columns = plan.Columns.Length;
        var found = new SortedDictionary<int, List<(int Bit, int Number)>>();
        for (var number = 0; number < plan.Contacts.Length; number++)
        {
            var (bank, bit) = plan.Contacts[number].Place switch
            {
                MatrixInput matrix => (matrix.Column * rowPorts.Length + IndexOf(rowPorts, plan.Rows[matrix.Row]), plan.Rows[matrix.Row].Bit),
                DirectInput direct => (columns * rowPorts.Length + IndexOf(directPorts, direct.Pin), direct.Pin.Bit),
                var place => (columns * rowPorts.Length + directPorts.Length + ((ChainInput)place).Chip, ((ChainInput)place).Input),
            };
            if (!found.TryGetValue(bank, out var list))
            {
                found[bank] = list = [];
            }

            list.Add((bit, number));
        }

        var count = columns * rowPorts.Length + directPorts.Length + (plan.Inputs?.ChipCount ?? 0);
        return new(rowPorts, directPorts, [.. Enumerable.Range(0, count).Select(index => Bank(plan, found.GetValueOrDefault(index, [])))]);
    }

    /// <summary>Banks without working out any: columns times ports with rows, ports with inputs of their own, chips.</summary>
    public static int Count(ControllerPlan plan) =>
        plan.Columns.Length * Ports(plan.Rows).Length
        + Ports(plan.Contacts.Select(contact => contact.Place).OfType<DirectInput>().Select(place => place.Pin)).Length
        + (plan.Inputs?.ChipCount ?? 0);

    private static ContactBank Bank(ControllerPlan plan, List<(int Bit, int Number)> contacts)
    {
        var numbers = Enumerable.Repeat(NoContact, 8).ToArray();
        byte there = 0, steady = 0;
        foreach (var (bit, number) in contacts)
        {
            numbers[bit] = number;
            there |= (byte)(1 << bit);
            steady |= (byte)(plan.Contacts[number].Steady ? 1 << bit : 0);
        }

        return new(there, steady, [.. numbers]);
    }

    private static ImmutableArray<(byte Port, byte Mask)> Ports(IEnumerable<ControllerPin> pins) =>
    [
        .. pins.GroupBy(EnginePins.PortNumber)
            .OrderBy(group => group.Key)
            .Select(group => ((byte)group.Key, (byte)group.Aggregate(0, (mask, pin) => mask | 1 << pin.Bit))),
    ];

    private static int IndexOf(ImmutableArray<(byte Port, byte Mask)> ports, ControllerPin pin)
    {
        for (var index = 0; index < ports.Length; index++)
        {
            if (ports[index].Port == EnginePins.PortNumber(pin))
            {
                return index;
            }
        }

        return -1;
    }
}
