namespace Lampblack.Checks;

/// <summary>Positions of selectors (MIL-STD-1472E, figure 4 and the clauses beside it).</summary>
public static class SelectorFigures
{
    /// <summary>Fewest positions that are worth a selector.</summary>
    public const int Fewest = 3;

    /// <summary>Most positions where the words are not in sight.</summary>
    public const int MostHidden = 12;

    /// <summary>Most positions where the words are always in sight.</summary>
    public const int MostVisible = 24;

    /// <summary>Least angle from one position to the next.</summary>
    public const double LeastStepDegrees = 15;

    /// <summary>Most, where there is a reason for a wide step.</summary>
    public const double MostStepDegrees = 90;

    /// <summary>Whether so many positions will do.</summary>
    /// <param name="count">How many.</param>
    /// <param name="visible">Whether every position has its word.</param>
    public static bool CountIsFine(int count, bool visible) => count >= Fewest && count <= (visible ? MostVisible : MostHidden);

    /// <summary>Whether a step will do.</summary>
    /// <param name="stepDegrees">From one position to the next.</param>
    public static bool StepIsFine(double stepDegrees) => stepDegrees is >= LeastStepDegrees and <= MostStepDegrees;
}
