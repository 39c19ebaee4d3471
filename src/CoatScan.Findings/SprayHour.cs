namespace CoatScan.Findings;

/// <summary>One hour of the forecast.</summary>
/// <param name="Hour">The hour in the caller's words.</param>
/// <param name="Verdict">Whether to spray then.</param>
/// <param name="DewPointC">Dew point, Celsius.</param>
/// <param name="Text">Why not, or why with care; empty where nothing stands against it.</param>
public sealed record SprayHour(string Hour, SprayVerdict Verdict, double DewPointC, string Text);
