using System.Collections.Immutable;
using Lampblack.Desks;

namespace Lampblack.Jobs;

/// <summary>Drawings and lists of a plan of light.</summary>
internal static class LightFiles
{
    public static ImmutableArray<OutputFile> Of(Desk desk, DeskLight light, PrintSetup setup) => [];
}
