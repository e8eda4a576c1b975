using Lampblack.SourceText;

namespace Lampblack.Desks;

/// <summary>Reads how well the maker works, and what the panel has to bear.</summary>
internal static class BenchReader
{
    public static Bench Read(TableReader root, DeskReading reading)
    {
        if (root.Table("bench") is not { } table)
        {
            return Bench.Usual;
        }

        var bench = new Bench(
            table.LengthMm("drill-error", 0, 5) ?? Bench.Usual.DrillErrorMm,
            table.LengthMm("paper-error", 0, 5) ?? Bench.Usual.PaperErrorMm,
            table.Number("finger", 0, 500) ?? Bench.Usual.FingerNewtons,
            table.Number("temperature-swing", 0, 150) ?? Bench.Usual.TemperatureSwingKelvin)
        {
            Drills = DrillsReader.Read(table, reading),
            PointDegrees = table.Number("point", 10, 180),
        };
        table.Finish();
        return bench;
    }
}
