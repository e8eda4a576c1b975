namespace Lampblack.Jobs;

/// <summary>What a build has to work out for the outputs that are wanted; everything else is left out. Checks alone look at all that takes no seconds.</summary>
/// <param name="Parts">The outputs.</param>
internal readonly record struct BuildStages(BuildParts Parts)
{
    /// <summary>What needs wires, holes and cuts.</summary>
    private const BuildParts WithBench = BuildParts.Bench | BuildParts.Book;

    /// <summary>Front and mask of the panels: all but the bench shows them.</summary>
    public bool Sides => IsCheck || Has(BuildParts.Print | BuildParts.Pictures | BuildParts.Book);

    /// <summary>What lies where on which sheet. Pictures show panels alone.</summary>
    public bool Sheets => IsCheck || Has(BuildParts.Print | BuildParts.Book);

    /// <summary>The panel to practise on that fills a sheet's waste; checks don't look at it.</summary>
    public bool Coupon => !IsCheck && Sheets;

    /// <summary>The pages on which drilled plates are photographed; they are printed with the sheets.</summary>
    public bool PhotoPages => IsCheck || Has(BuildParts.Print);

    /// <summary>The plan of light, which takes seconds: checks don't wait for it, <c>lampblack light</c> tells. Sheets are the same by any light.</summary>
    public bool Light => Has(BuildParts.Pictures | WithBench);

    /// <summary>Charts of holes, and how plates are cut.</summary>
    public bool Bench => IsCheck || Has(WithBench);

    /// <summary>The wires; the pins are planned for every build, as firmware comes with each.</summary>
    public bool Wires => Has(WithBench);

    private bool IsCheck => Parts == BuildParts.None;

    private bool Has(BuildParts any) => (Parts & any) != 0;
}
