using System.Collections.Generic;
using System.Globalization;
using System.Linq;

namespace Lampblack.Circuits;

/// <summary>Pixels: their supply above and below, the data from one to the next.</summary>
internal static class PixelDrawing
{
    private const double TextMm = CircuitDrawing.TextMm;
    private const double CapacitorMm = 29;
    private const double DataMm = 42;
    private const double ShifterMm = 62;
    private const double ResistorMm = 80;
    private const double FirstMm = 102;
    private const double PitchMm = 15.5;
    private const double HalfMm = 5;
    private const double FeedMm = 14;

    /// <summary>Draws them.</summary>
    /// <returns>Where the next channel may start, and how far down + has to reach.</returns>
    public static (double NextMm, double PlusEndMm) Draw(CircuitPen pen, ChannelPlan plan, PixelPlan pixels, CircuitLabels labels, double upperMm)
    {
        var rowMm = upperMm + FeedMm - 2;
        var (plusMm, zeroMm) = (rowMm - FeedMm, rowMm + FeedMm);
        Data(pen, plan, pixels, labels, rowMm);

        var plates = pen.Capacitor(CapacitorMm, rowMm);
        pen.Word($"{labels.Capacitor}  1000 µF", CapacitorMm + 2.5, rowMm + 9.5, TextMm, 0, 34);
        pen.Wire((CapacitorMm, plusMm), (CapacitorMm, rowMm - plates));
        pen.Wire((CapacitorMm, rowMm + plates), (CapacitorMm, zeroMm));
        pen.Dot(CapacitorMm, plusMm);

        var shown = Shown(plan.Channel.Count, pixels).ToList();
        var lastFeedMm = CapacitorMm;
        for (var index = 0; index < shown.Count; index++)
        {
            var at = FirstMm + (index * PitchMm);
            var isLast = index + 1 == shown.Count;
            if (shown[index] is { } number)
            {
                pen.Box(at - HalfMm, rowMm - HalfMm, at + HalfMm, rowMm + HalfMm);
                pen.Word(number.ToString(CultureInfo.InvariantCulture), at, rowMm, TextMm, 0.5, (2 * HalfMm) - 1);
                if (pixels.FeedAt.Contains(number))
                {
                    pen.Wire((at, plusMm), (at, rowMm - HalfMm));
                    pen.Wire((at, rowMm + HalfMm), (at, zeroMm));
                    pen.Dot(at, zeroMm);
                    if (lastFeedMm > CapacitorMm)
                    {
                        pen.Dot(lastFeedMm, plusMm);
                    }

                    lastFeedMm = at;
                }
            }
            else
            {
                pen.More(at, rowMm);
            }

            if (!isLast)
            {
                pen.Wire((at + (shown[index] is null ? 3.2 : HalfMm), rowMm), (at + PitchMm - (shown[index + 1] is null ? 3.2 : HalfMm), rowMm));
            }
        }

        pen.Dot(PlusMm, plusMm);
        pen.Wire((PlusMm, plusMm), (lastFeedMm, plusMm));
        pen.Wire((CapacitorMm, zeroMm), (ZeroMm, zeroMm));
        pen.Dot(ZeroMm, zeroMm);
        pen.Word("+ brought in", FirstMm - HalfMm - 2, plusMm + 3.4, TextMm, 1, 40);
        pen.Word("0 V brought in", FirstMm - HalfMm - 2, zeroMm - 3.4, TextMm, 1, 40);
        return (zeroMm + 9, plusMm);
    }

    private static double PlusMm => CircuitDrawing.PlusMm;

    private static double ZeroMm => CircuitDrawing.ZeroMm;

    /// <summary>From the controller's pin to the first pixel.</summary>
    private static void Data(CircuitPen pen, ChannelPlan plan, PixelPlan pixels, CircuitLabels labels, double rowMm)
    {
        pen.Terminal(DataMm, rowMm);
        pen.Word(plan.Channel.PinName, DataMm, rowMm - 4.2, TextMm, 0.5, 22);
        if (pixels.NeedsShifter)
        {
            pen.Wire((DataMm + 1, rowMm), (ShifterMm - 4, rowMm));
            pen.Buffer(ShifterMm, rowMm);
            pen.Word($"{labels.Shifter}  {CircuitLabels.ShifterChip}", ShifterMm, rowMm - 7, TextMm, 0.5, 26);
            pen.Word($"at {CircuitWords.Volts(((AddressablePixels)plan.Channel.Feed).PixelVolts)}", ShifterMm, rowMm + 7, CircuitDrawing.SmallMm, 0.5, 26);
            pen.Wire((ShifterMm + 4, rowMm), (ResistorMm - CircuitPen.ResistorHalfMm, rowMm));
        }
        else
        {
            pen.Wire((DataMm + 1, rowMm), (ResistorMm - CircuitPen.ResistorHalfMm, rowMm));
        }

        pen.Resistor(ResistorMm, rowMm);
        pen.Word($"{labels.Data}  {CircuitWords.Ohms(CircuitLabels.DataOhms)}", ResistorMm, rowMm + 4.4, TextMm, 0.5, 30);
        pen.Wire((ResistorMm + CircuitPen.ResistorHalfMm, rowMm), (FirstMm - HalfMm, rowMm));
    }

    /// <summary>Which pixels are shown: the first two, the first of the second and of the last stretch, the last; nothing for dots between.</summary>
    private static IEnumerable<int?> Shown(int count, PixelPlan pixels)
    {
        int[] wanted = [.. new[] { 1, 2, pixels.FeedAt.ElementAtOrDefault(1), pixels.FeedAt[^1], count }.Where(number => number > 0 && number <= count).Distinct().Order()];
        foreach (var (index, number) in wanted.Index())
        {
            if (index > 0 && number > wanted[index - 1] + 1)
            {
                yield return null;
            }

            yield return number;
        }
    }
}
