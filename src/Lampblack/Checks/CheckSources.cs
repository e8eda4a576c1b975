namespace Lampblack.Checks;

/// <summary>Where the rules' figures come from, as findings name it.</summary>
internal static class CheckSources
{
    public const string Memory = "from memory";
    public const string Practice = "common practice, no source";
    public const string Nureg = "NUREG-0700 Rev. 3";
    public const string NuregSpacing = "NUREG-0700 Rev. 3, table 11.5";
    public const string MilSpacing = "MIL-STD-1472E, table VII";
    public const string MilSelector = "MIL-STD-1472E, figure 4";
    public const string MilKnob = "MIL-STD-1472, figure 7, from memory";
    public const string MilButton = "MIL-STD-1472, figure 11, from memory";
    public const string MilToggle = "MIL-STD-1472, figure 13, from memory";
    public const string HumanFactors = "a summary of HF-STD-001B";
    public const string Gost = "GOST 27626-88";
    public const string Roark = "Roark's Formulas, 7th edition, table 11.4, case 1b";
}
