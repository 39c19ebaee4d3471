using System.Globalization;

namespace CoatScan.Cli.Text;

/// <summary>Probabilities as people read them.</summary>
internal static class Share
{
    /// <summary>Percent; the ends are never rounded to certainty.</summary>
    public static string Percent(double probability) => probability switch
    {
        <= 0 => "0 %",
        < 0.01 => "under 1 %",
        > 0.99 and < 1 => "over 99 %",
        _ => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(probability * 100):0} %"),
    };

    /// <summary>How likely, in words.</summary>
    public static string Words(double probability) => probability switch
    {
        >= 0.95 => "almost certain",
        >= 0.8 => "very likely",
        >= 0.6 => "likely",
        >= 0.4 => "possible",
        >= 0.15 => "less likely",
        _ => "unlikely",
    };
}
