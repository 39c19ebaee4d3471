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

    /// <summary>How likely the leading one is: it can be the likeliest of many and still not be likely.</summary>
    public static string WordsOfLeading(double probability) =>
        probability >= 0.5 ? Words(probability) : "the likeliest of several";

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
