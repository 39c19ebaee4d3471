using CoatScan.Findings;

namespace CoatScan.Storage;

/// <summary>How many rows a page holds.</summary>
internal static class PageSize
{
    /// <summary>The size asked for; 0 means the default, and too much is lowered.</summary>
    /// <exception cref="CoatScanException">VALUE_OUT_OF_RANGE: it is negative.</exception>
    public static int Of(int asked, int standard, int maximum) => asked switch
    {
        < 0 => throw new CoatScanException(
            ErrorReason.ValueOutOfRange,
            $"page_size is {asked}; it must be 0 to {maximum}.",
            "page_size",
            new Dictionary<string, string> { ["value"] = $"{asked}", ["max"] = $"{maximum}" }),
        0 => standard,
        _ => Math.Min(asked, maximum),
    };
}
