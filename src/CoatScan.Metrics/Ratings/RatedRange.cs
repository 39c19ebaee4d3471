using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Metrics.Ratings;

/// <summary>A class and the classes that the ends of a value's interval fall into.</summary>
/// <param name="Class">Class of the value itself.</param>
/// <param name="Low">Smallest class within the uncertainty.</param>
/// <param name="High">Largest class within the uncertainty.</param>
internal readonly record struct RatedRange(int Class, int Low, int High)
{
    /// <summary>Rates a measured size and both ends of its interval.</summary>
    internal static RatedRange Of(Measurement size, Func<double, int> rate) =>
        Of(size.Value!.Value, size.Uncertainty ?? 0.0, rate);

    /// <summary>Rates a value and both ends of its interval, none below 0, by a table that may rise or fall.</summary>
    internal static RatedRange Of(double value, double halfWidth, Func<double, int> rate)
    {
        var (start, end) = (rate(Math.Max(0.0, value - halfWidth)), rate(value + halfWidth));
        return new(rate(value), Math.Min(start, end), Math.Max(start, end));
    }

    /// <summary>What is added to a designation: nothing where the whole interval lies in one class.</summary>
    internal string Spread(string prefix) => Low == High
        ? ""
        : string.Create(
            CultureInfo.InvariantCulture, $" ({prefix}{Low} to {prefix}{High} within the uncertainty)");
}
