using System.Globalization;

namespace CoatScan.Findings;

/// <summary>The one way in which a probability is written for people.</summary>
public static class ShareText
{
    /// <summary>Whole percent; the ends are never rounded to certainty.</summary>
    /// <param name="probability">Probability, [0, 1].</param>
    public static string Percent(double probability) => probability switch
    {
        <= 0 => "0 %",
        < 0.01 => "under 1 %",
        > 0.99 and < 1 => "over 99 %",
        _ => string.Create(CultureInfo.InvariantCulture, $"{Math.Round(probability * 100):0} %"),
    };
}
