using System;
using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using System.Text.RegularExpressions;
using Lampblack.Circuits;
using Lampblack.Tests.Peers;
using Xunit;

namespace Lampblack.Tests.Circuits;

/// <summary>Circuits computed by ngspice, which shares nothing with us but the figures in the list.</summary>
internal static partial class Ngspice
{
    /// <summary>The current of each string on its own supply, in their order.</summary>
    public static ImmutableArray<double> Currents(IReadOnlyList<(DiodeString String, double SupplyVolts)> cases)
    {
        var text = new StringBuilder("strings of lamps\n.options temp=27 reltol=1e-7\n");
        foreach (var ((one, volts), index) in cases.Select((item, index) => (item, index)))
        {
            Line(text, $"V{index} s{index} 0 {volts:R}");
            Line(text, $"R{index} s{index} n{index}x0 {one.ResistorOhms:R}");
            for (var diode = 0; diode < one.DiodeCount; diode++)
            {
                Line(text, $"D{index}x{diode} n{index}x{diode} {(diode + 1 == one.DiodeCount ? "0" : string.Create(CultureInfo.InvariantCulture, $"n{index}x{diode + 1}"))} lamp{index}");
            }

            Line(text, $".model lamp{index} {Model(one.Curve)}");
        }

        text.Append(".control\nset numdgt=9\nop\n");
        foreach (var index in Enumerable.Range(0, cases.Count))
        {
            Line(text, $"print i(V{index})");
        }

        var found = Numbers(Run(text.Append("quit\n.endc\n.end\n").ToString()));
        return [.. Enumerable.Range(0, cases.Count).Select(index => -found[FormattableString.Invariant($"i(v{index})")])];
    }

    /// <summary>The mean current of strings in parallel that a transistor switches, over ten periods.</summary>
    /// <param name="channel">The channel, with its switch.</param>
    /// <param name="supplyVolts">The supply.</param>
    /// <param name="gateVolts">What the pin switches up to.</param>
    /// <param name="hertz">How often.</param>
    /// <param name="dutyShare">How long it is on, as a share.</param>
    public static double MeanAmperes(ChannelPlan channel, double supplyVolts, double gateVolts, double hertz, double dutyShare)
    {
        var text = new StringBuilder("dimmed lamps\n.options temp=27\n");
        Line(text, $"VS s 0 {supplyVolts:R}");
        var curve = channel.Strings[0].String.Curve;
        foreach (var (one, index) in channel.Strings.SelectMany(kind => Enumerable.Repeat(kind.String, kind.StringCount)).Select((one, index) => (one, index)))
        {
            Line(text, $"R{index} s n{index}x0 {one.ResistorOhms:R}");
            for (var diode = 0; diode < one.DiodeCount; diode++)
            {
                Line(text, $"D{index}x{diode} n{index}x{diode} {(diode + 1 == one.DiodeCount ? "d" : string.Create(CultureInfo.InvariantCulture, $"n{index}x{diode + 1}"))} lamp");
            }
        }

        var period = 1 / hertz;
        Line(text, $"M1 d g 0 0 switch L=1 W=1");
        Line(text, $"RG p g {channel.Switch!.GateOhms:R}");
        Line(text, $"RP g 0 {channel.Switch.PullDownOhms:R}");
        Line(text, $"CG g 0 400p");
        Line(text, $"VP p 0 PULSE(0 {gateVolts:R} 0 20n 20n {(dutyShare * period) - 20e-9:R} {period:R})");
        Line(text, $".model lamp {Model(curve).Replace(")", " CJO=42p)", StringComparison.Ordinal)}");
        Line(text, $".model switch NMOS(LEVEL=1 VTO=1.6 KP=8 RD=0.02 RS=0.01)");
        Line(text, $".tran {period / 1000:R} {11 * period:R} 0 {period / 1000:R}");
        Line(text, $".meas tran mean AVG i(VS) from={period:R} to={11 * period:R}");
        return -Numbers(Run(text.Append(".end\n").ToString()))["mean"];
    }

    /// <summary>What lamps and resistors that are joined somehow take from one supply.</summary>
    /// <param name="resistors">Each with its two nodes; "plus" is the supply.</param>
    /// <param name="lamps">Each with the nodes of its plus and its minus; "0" is 0 V.</param>
    /// <param name="curve">The curve of each lamp.</param>
    /// <param name="supplyVolts">The supply.</param>
    public static double SupplyAmperes(IReadOnlyList<(string From, string To, double Ohms)> resistors, IReadOnlyList<(string Plus, string Minus)> lamps, DiodeCurve curve, double supplyVolts)
    {
        var names = new Dictionary<string, string> { ["plus"] = "plus", ["0"] = "0" };
        string Node(string name) => names.TryGetValue(name, out var known) ? known : names[name] = FormattableString.Invariant($"n{names.Count}");
        var text = new StringBuilder("lamps as they are soldered\n.options temp=27 reltol=1e-7\n");
        Line(text, $"VS plus 0 {supplyVolts:R}");
        foreach (var ((from, to, ohms), index) in resistors.Select((item, index) => (item, index)))
        {
            Line(text, $"R{index} {Node(from)} {Node(to)} {ohms:R}");
        }

        foreach (var ((plus, minus), index) in lamps.Select((item, index) => (item, index)))
        {
            Line(text, $"D{index} {Node(plus)} {Node(minus)} lamp");
        }

        // A node that hangs in the air gets a leak to 0 V, as a meter would be.
        foreach (var (node, index) in names.Values.Where(node => node[0] == 'n').Select((node, index) => (node, index)))
        {
            Line(text, $"RX{index} {node} 0 1e9");
        }

        Line(text, $".model lamp {Model(curve)}");
        return -Numbers(Run(text.Append(".control\nset numdgt=9\nop\nprint i(VS)\nquit\n.endc\n.end\n").ToString()))["i(vs)"];
    }

    private static string Model(DiodeCurve curve) => string.Create(CultureInfo.InvariantCulture, $"D(IS={curve.SaturationAmperes:R} N={curve.IdealityFactor:R} RS={curve.SeriesOhms:R})");

    private static void Line(StringBuilder text, FormattableString line) => text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');

    private static string Run(string circuit)
    {
        OutsideProgram.Need("ngspice");
        using var folder = new ScratchFolder();
        return OutsideProgram.RunWell("ngspice", ["-b", folder.Write("lamps.cir", Encoding.ASCII.GetBytes(circuit))], folder.FullPath).Output;
    }

    /// <summary>The first value printed for each name.</summary>
    private static Dictionary<string, double> Numbers(string output)
    {
        var found = Printed().Matches(output).GroupBy(match => match.Groups[1].Value).ToDictionary(
            same => same.Key, same => double.Parse(same.First().Groups[2].Value, NumberStyles.Float, CultureInfo.InvariantCulture));
        Assert.True(found.Count > 0, output);
        return found;
    }

    [GeneratedRegex(@"^\s*(\S+)\s*=\s*([-+0-9.eE]+)", RegexOptions.Multiline)]
    private static partial Regex Printed();
}
