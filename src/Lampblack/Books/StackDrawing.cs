using System.Collections.Generic;
using System.Collections.Immutable;
using System.Globalization;
using System.Linq;
using System.Text;
using Lampblack.Desks;
using static Lampblack.Formats.HtmlMarkup;

namespace Lampblack.Books;

/// <summary>The layers of a panel from the face to the lamps, as a picture.</summary>
internal static class StackDrawing
{
    private const double RowMm = 9;
    private const double BarMm = 34;
    private const double WordsMm = 116;

    public static BookPicture Of(BookFacts facts)
    {
        var layers = Layers(facts).ToImmutableArray();
        var heightMm = (layers.Length * RowMm) + 2;
        var drawing = new StringBuilder();
        drawing.Append(CultureInfo.InvariantCulture, $"<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{WordsMm:0}mm\" height=\"{heightMm:0}mm\" viewBox=\"0 0 {WordsMm:0} {heightMm:0}\"><title>The layers, from your eye to the lamps: {Text(string.Join(", ", layers.Select(layer => layer.Name)))}</title>");
        foreach (var (index, (name, fill, hatch)) in layers.Index())
        {
            var y = 1 + (index * RowMm);
            drawing.Append(CultureInfo.InvariantCulture, $"<rect x=\"1\" y=\"{y:0.#}\" width=\"{BarMm:0}\" height=\"{RowMm - 1.5:0.#}\" fill=\"{fill}\" stroke=\"#111\" stroke-width=\"0.3\"/>");
            if (hatch)
            {
                drawing.Append(CultureInfo.InvariantCulture, $"<path d=\"M8 {y + 1.5:0.#}h7M19 {y + 1.5:0.#}h9\" stroke=\"#f6dd9a\" stroke-width=\"1.6\"/>");
            }

            drawing.Append(CultureInfo.InvariantCulture, $"<text x=\"{BarMm + 4:0}\" y=\"{y + 5.2:0.#}\" font-size=\"4\" font-family=\"sans-serif\" fill=\"#111\">{Text(name)}</text>");
        }

        return new(drawing.Append("</svg>").ToString(), "From your eye (top) to the lamps (bottom). The mask side lies on the side of the lamps.", WordsMm);
    }

    private static IEnumerable<(string Name, string Fill, bool Opening)> Layers(BookFacts facts)
    {
        var stack = facts.Laid.Desk.Stack;
        var plate = ($"acrylic, {facts.Exact(stack.PlateMm)}", "#dfe8ea", false);
        var isBehind = facts.Maker.Order == WorkOrder.PrintBehind;
        if (stack.CoverMm > 0)
        {
            yield return ($"clear cover, {facts.Exact(stack.CoverMm)}", "#eef4f5", false);
        }
        else if (!isBehind)
        {
            yield return ("top coat", "#f4f1e6", false);
        }

        if (isBehind)
        {
            yield return plate;
        }

        yield return ("front: black, legends open", "#2a2722", true);
        yield return ("paper", "#ffffff", false);
        yield return ("mask: black, a little wider open", "#2a2722", true);
        if (!isBehind)
        {
            yield return ("glue", "#f0e2b6", false);
            yield return plate;
        }

        if (stack.DiffuserMm > 0)
        {
            yield return ($"diffuser, {facts.Exact(stack.DiffuserMm)}", "#f7f7f2", false);
        }
    }
}
