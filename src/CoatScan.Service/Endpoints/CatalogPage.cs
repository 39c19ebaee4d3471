using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Service.Endpoints;

/// <summary>One page of a list that stays the same while the server runs.</summary>
internal static class CatalogPage
{
    /// <summary>Page size when the caller names none.</summary>
    public const int DefaultSize = 50;

    /// <summary>Largest page size.</summary>
    public const int MaxSize = 500;

    /// <summary>Cuts a page.</summary>
    /// <exception cref="CoatScanException">VALUE_OUT_OF_RANGE (page_size), FIELD_INVALID (page_token).</exception>
    public static (IReadOnlyList<T> Items, string NextPageToken) Of<T>(
        IReadOnlyList<T> all,
        int pageSize,
        string pageToken,
        int defaultSize)
    {
        if (pageSize < 0)
        {
            throw new CoatScanException(
                ErrorReason.ValueOutOfRange,
                $"page_size is {pageSize}; it must be 0 (for {defaultSize}) or more.",
                "page_size",
                new Dictionary<string, string> { ["value"] = pageSize.ToString(CultureInfo.InvariantCulture) });
        }

        var size = pageSize == 0 ? defaultSize : Math.Min(pageSize, MaxSize);
        var start = Start(pageToken, all.Count);
        var end = Math.Min(all.Count, start + size);
        return (
            [.. all.Skip(start).Take(end - start)],
            end < all.Count ? end.ToString(CultureInfo.InvariantCulture) : "");
    }

    private static int Start(string pageToken, int count)
    {
        if (pageToken.Length == 0)
        {
            return 0;
        }

        if (!int.TryParse(pageToken, NumberStyles.None, CultureInfo.InvariantCulture, out var start) || start >= count)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                "page_token is not one that this list gave.",
                "page_token");
        }

        return start;
    }
}
