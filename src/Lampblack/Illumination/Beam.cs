namespace Lampblack.Illumination;

/// <summary>An emitter in its box, with what its light is worked out from again and again.</summary>
/// <param name="At">Where it stands.</param>
/// <param name="OrderFactor">The exponent of the cosine that it follows.</param>
/// <param name="AxisCandela">Its intensity straight ahead.</param>
/// <param name="FluxLumens">All its light.</param>
internal readonly record struct Beam(Place At, double OrderFactor, double AxisCandela, double FluxLumens)
{
    /// <summary>That of an emitter.</summary>
    /// <param name="emitter">The emitter.</param>
    /// <param name="depthMm">How deep in the box it stands.</param>
    public static Beam Of(Emitter emitter, double depthMm) => new(new(emitter.At.XMm, emitter.At.YMm, depthMm), emitter.OrderFactor, emitter.AxisCandela, emitter.FluxLumens);
}
