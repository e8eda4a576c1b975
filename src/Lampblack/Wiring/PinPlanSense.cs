using System.Linq;

namespace Lampblack.Wiring;

/// <summary>Whether all numbers in a plan lead to something, so that nobody after this has to ask.</summary>
public static class PinPlanSense
{
    /// <summary>Whether they do.</summary>
    /// <param name="plan">A plan that was read from a file.</param>
    public static bool Holds(PinPlan plan) =>
        plan is { Controllers.Length: > 0 } && plan.Controllers.Index().All(one => one.Index == one.Item.Index && Holds(one.Item))
        && plan.Controls.All(control => Has(plan.Controllers.Length, control.Controller) && Holds(control, plan.Controllers[control.Controller]));

    private static bool Holds(ControllerPlan one) =>
        one.Contacts.All(contact => Holds(contact.Place, one)) && one.Indicators.All(lamp => lamp.Place is not ChainOutput at || (one.Outputs is { } chain && Has(chain.ChipCount, at.Chip) && Has(8, at.Output)))
        && one.Encoders.All(encoder => encoder.EdgesPerDetent is 1 or 2 or 4);

    private static bool Holds(InputPlace place, ControllerPlan one) => place switch
    {
        MatrixInput at => Has(one.Columns.Length, at.Column) && Has(one.Rows.Length, at.Row),
        ChainInput at => one.Inputs is { } chain && Has(chain.ChipCount, at.Chip) && Has(8, at.Input),
        _ => true,
    };

    private static bool Holds(WiredControl control, ControllerPlan controller) => control.Kind switch
    {
        WiredKind.Encoder => Has(controller.Encoders.Length, control.Number),
        WiredKind.Analog => Has(controller.Wipers.Length, control.Number),
        WiredKind.Meter => Has(controller.Dimmers.Length, control.Number),
        WiredKind.Indicator => Has(controller.Indicators.Length, control.Number),
        _ => Has(control.States.Length, control.RestState) && (control.Contacts.IsEmpty
            ? Has(controller.Ladders.Length, control.Number)
            : control.Contacts.All(contact => Has(controller.Contacts.Length, contact)) && control.States.All(state => state.Closed.Length == control.Contacts.Length)),
    };

    private static bool Has(int count, int number) => number >= 0 && number < count;
}
