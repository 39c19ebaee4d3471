namespace CoatScan.Cli.Text;

/// <summary>How likely, in everyday words.</summary>
internal static class Share
{
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
