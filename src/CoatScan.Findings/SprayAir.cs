namespace CoatScan.Findings;

/// <summary>The air and the panel at one hour.</summary>
/// <param name="Hour">The hour in the caller's words, for example <c>2026-05-01T14:00</c>; empty for now.</param>
/// <param name="AirC">Air temperature, Celsius, [-30, 60].</param>
/// <param name="HumidityPercent">Relative humidity, percent, (0, 100].</param>
/// <param name="PanelC">Panel temperature, Celsius, [-30, 90]; null to take the air's.</param>
public sealed record SprayAir(string Hour, double AirC, double HumidityPercent, double? PanelC);
