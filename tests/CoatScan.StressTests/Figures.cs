using System.Globalization;

namespace CoatScan.StressTests;

/// <summary>What was measured, with the bars, as a table.</summary>
internal sealed class Figures(string trial)
{
    private readonly List<(string What, string Value, string Bar, bool? Met)> _rows = [];

    /// <summary>Whether every bar is met, and there is one.</summary>
    public bool AllMet => _rows.Any(row => row.Met is not null) && _rows.All(row => row.Met is not false);

    /// <summary>A value without a bar.</summary>
    public void Say(string what, FormattableString value) => _rows.Add((what, FormattableString.Invariant(value), "", null));

    /// <summary>A value that may not be above its bar.</summary>
    public void AtMost(string what, double value, double bar, string unit) =>
        _rows.Add((what, Text(value, unit), $"at most {Text(bar, unit)}", value <= bar));

    /// <summary>A value that must be its bar at least.</summary>
    public void AtLeast(string what, double value, double bar, string unit) =>
        _rows.Add((what, Text(value, unit), $"at least {Text(bar, unit)}", value >= bar));

    /// <summary>Writes the table.</summary>
    public async Task WriteAsync(TextWriter output)
    {
        await output.WriteLineAsync($"{trial}, load before {LoadBefore}");
        var (first, second, third) = (_rows.Max(row => row.What.Length), _rows.Max(row => row.Value.Length), _rows.Max(row => row.Bar.Length));
        foreach (var (what, value, bar, met) in _rows)
        {
            var word = met switch { true => "met", false => "MISSED", null => "" };
            await output.WriteLineAsync($"{what.PadRight(first)}  {value.PadLeft(second)}  {bar.PadRight(third)}  {word}".TrimEnd());
        }
    }

    // What else the machine did: without it no time means anything.
    private string LoadBefore { get; } = File.Exists("/proc/loadavg") ? File.ReadAllText("/proc/loadavg").Split(' ')[0] : "unknown";

    private static string Text(double value, string unit) => string.Create(CultureInfo.InvariantCulture, $"{value:0.##} {unit}").TrimEnd();
}
