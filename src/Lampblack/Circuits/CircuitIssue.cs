namespace Lampblack.Circuits;

/// <summary>Something that is wrong with a circuit, with its figures. <see cref="CircuitFindings"/> puts it into words.</summary>
/// <param name="Channel">The channel that it is about; nothing where it is about all.</param>
public abstract record CircuitIssue(string? Channel);

/// <summary>A figure that can't be used.</summary>
/// <param name="Channel">Its channel.</param>
/// <param name="What">What it is, in words.</param>
/// <param name="Found">What was told.</param>
/// <param name="Allowed">What can be.</param>
public sealed record ValueUnusable(string? Channel, string What, string Found, string Allowed) : CircuitIssue(Channel);

/// <summary>The supply can come to more than may be touched.</summary>
/// <param name="HighestVolts">What it can come to.</param>
public sealed record SupplyNotSelv(double HighestVolts) : CircuitIssue((string?)null);

/// <summary>Too little is left for the resistor.</summary>
/// <param name="Channel">Its channel.</param>
/// <param name="NeedVolts">What one diode needs at the wanted current.</param>
/// <param name="SupplyVolts">The supply's own volts.</param>
/// <param name="WantedAmperes">The wanted current.</param>
/// <param name="LowestAmperes">What is left of it with a low supply.</param>
public sealed record NoHeadroom(string Channel, double NeedVolts, double SupplyVolts, double WantedAmperes, double LowestAmperes) : CircuitIssue(Channel);

/// <summary>More current is wanted than a diode bears.</summary>
/// <param name="Channel">Its channel.</param>
/// <param name="WantedAmperes">What was wanted.</param>
/// <param name="MostAmperes">What it bears, and what was planned with.</param>
public sealed record LampOverCurrent(string Channel, double WantedAmperes, double MostAmperes) : CircuitIssue(Channel);

/// <summary>A strip, or pixels, made for other volts than the supply's.</summary>
/// <param name="Channel">Its channel.</param>
/// <param name="StripVolts">What it is made for.</param>
/// <param name="SupplyVolts">What the supply gives.</param>
public sealed record StripVoltsDiffer(string Channel, double StripVolts, double SupplyVolts) : CircuitIssue(Channel);

/// <summary>The supply gives too little, or leaves no margin.</summary>
/// <param name="LoadAmperes">What everything takes at the supply's own volts.</param>
/// <param name="GivenAmperes">What the supply gives.</param>
/// <param name="WantedAmperes">What it should give.</param>
public sealed record SupplyTooSmall(double LoadAmperes, double GivenAmperes, double WantedAmperes) : CircuitIssue((string?)null);

/// <summary>Too much is lost on the wires.</summary>
/// <param name="Gauge">The wire.</param>
/// <param name="DropVolts">What is lost.</param>
/// <param name="DropShare">The same as a share.</param>
/// <param name="Better">The thinnest wire that would do; nothing where none would.</param>
public sealed record WireDrop(WireGauge Gauge, double DropVolts, double DropShare, WireGauge? Better) : CircuitIssue((string?)null);

/// <summary>No fuse protects this wire and carries this load.</summary>
/// <param name="Gauge">The wire.</param>
/// <param name="LoadAmperes">The most that everything can come to.</param>
/// <param name="FuseAmperes">The smallest fuse that carries it; nothing where there is none.</param>
public sealed record WireUnprotected(WireGauge Gauge, double LoadAmperes, double? FuseAmperes) : CircuitIssue((string?)null);

/// <summary>A resistor gets warmer than those at hand should.</summary>
/// <param name="Channel">Its channel.</param>
/// <param name="Ohms">Which one.</param>
/// <param name="LoadWatts">What it gets.</param>
/// <param name="WantedWatts">What it should be made for.</param>
/// <param name="GivenWatts">What those at hand are made for.</param>
public sealed record ResistorTooSmall(string Channel, double Ohms, double LoadWatts, double WantedWatts, double GivenWatts) : CircuitIssue(Channel);

/// <summary>The box gets too warm.</summary>
/// <param name="Watts">The heat in it.</param>
/// <param name="InsideCelsius">How warm it gets, roughly.</param>
public sealed record BoxHot(double Watts, double InsideCelsius) : CircuitIssue((string?)null);

/// <summary>The light is switched so slowly that it can be noticed.</summary>
/// <param name="Channel">The channel, where it is its own doing.</param>
/// <param name="PwmHertz">How often.</param>
/// <param name="AllowedPercent">How deep it may be switched at that rate; it is switched all the way, 100.</param>
public sealed record PwmFlickers(string? Channel, double PwmHertz, double AllowedPercent) : CircuitIssue(Channel);
