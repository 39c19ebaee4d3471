namespace CoatScan.Findings;

/// <summary>One limit and how the hour stands to it.</summary>
/// <param name="Gate">Id of the limit, for example <c>dew_point</c>.</param>
/// <param name="Verdict">What it says.</param>
/// <param name="Value">What is met, in <paramref name="Unit"/>.</param>
/// <param name="Limit">The limit, in <paramref name="Unit"/>.</param>
/// <param name="Unit">UCUM unit code.</param>
/// <param name="Text">The same in words.</param>
public sealed record SprayGate(string Gate, SprayVerdict Verdict, double Value, double Limit, string Unit, string Text);
