using Lampblack.Jobs;

namespace Lampblack.Workshop.Pages;

/// <summary>A printer while it is being described on the page.</summary>
public sealed class DescribedPrinter
{
    /// <summary>Its name.</summary>
    public string Name { get; set; } = string.Empty;

    /// <summary><c>colour</c> or <c>black</c>.</summary>
    public string Inks { get; set; } = "colour";

    /// <summary>The paper.</summary>
    public string Paper { get; set; } = string.Empty;

    /// <summary>The paper's weight with its unit; empty where it is not known.</summary>
    public string Weight { get; set; } = string.Empty;

    /// <summary><c>short</c> or <c>long</c>.</summary>
    public string Edge { get; set; } = "short";

    /// <summary><c>by-hand</c> or <c>automatic</c>.</summary>
    public string Turning { get; set; } = "by-hand";

    /// <summary>The slot.</summary>
    public string Slot { get; set; } = string.Empty;

    /// <summary>What the driver calls heavy paper.</summary>
    public string Heavy { get; set; } = string.Empty;

    /// <summary>What was said, as the printer file's reader takes it.</summary>
    public NewPrinter Said => new(Name.Trim(), Inks == "black", OrNull(Slot), Paper, OrNull(Weight), Edge, Turning, null, OrNull(Heavy), null, null);

    private static string? OrNull(string words) => words.Trim() is { Length: > 0 } said ? said : null;
}
