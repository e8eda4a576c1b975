using System;
using System.Linq;
using Lampblack.Findings;

namespace Lampblack.Checks;

/// <summary>Selectors whose positions are told apart by hand and eye.</summary>
internal static class SelectorRules
{
    public static void Check(Inspection panel)
    {
        foreach (var control in panel.Controls.Where(control => control.Kind == ControlKind.Selector))
        {
            if (control.Placed.Part.Positions is not { } positions)
            {
                continue;
            }

            var (count, step, origin) = (positions.Count, positions.StepDegrees, control.Origin);
            var visible = control.Control.States.Count(state => !string.IsNullOrWhiteSpace(state)) >= count || control.Control.Dial is not null;
            if (!SelectorFigures.CountIsFine(count, visible))
            {
                panel.Findings.Add(
                    Finding.Warn(
                        "selector-positions",
                        $"the selector {Shown.Code(origin.Item)} has {count} positions; {SelectorFigures.Fewest} to {SelectorFigures.MostVisible} are allowed where each has its word, to {SelectorFigures.MostHidden} where not ({CheckSources.MilSelector} and clauses beside it)",
                        count < SelectorFigures.Fewest ? "a toggle does it better" : "give every position its word in `states`, or part it into two selectors",
                        origin.Span,
                        origin.Item),
                    -count,
                    origin);
            }

            if (!SelectorFigures.StepIsFine(step))
            {
                panel.Findings.Add(
                    Finding.Warn(
                        "selector-step",
                        $"the positions of {Shown.Code(origin.Item)} are {Shown.Number(step)} degrees apart; {Shown.Number(SelectorFigures.LeastStepDegrees)} to {Shown.Number(SelectorFigures.MostStepDegrees)} are told apart by hand ({CheckSources.MilSelector})",
                        "take a part with another step",
                        origin.Span,
                        origin.Item),
                    step,
                    origin);
            }

            var angles = control.Placed.Part.PositionDegrees;
            if (angles.Any(angle => angles.Any(other => Math.Abs(Math.Abs(angle - other) - 180) < 1e-6)))
            {
                panel.Findings.Add(
                    Finding.Note(
                        "selector-opposite",
                        $"positions of {Shown.Code(origin.Item)} lie opposite each other; with a bar knob one is taken for the other (MIL-STD-1472E, beside figure 4)",
                        "take a knob that shows at one end only where it points",
                        origin.Span,
                        origin.Item),
                    0,
                    origin);
            }
        }
    }
}
