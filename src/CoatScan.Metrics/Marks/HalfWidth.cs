namespace CoatScan.Metrics.Marks;

/// <summary>Half widths of 95 % intervals.</summary>
internal static class HalfWidth
{
    /// <summary>Normal quantile of a two-sided 95 % interval.</summary>
    internal const double Normal = 1.959964;

    /// <summary>One-sided 95 % limit of a Poisson mean of which nothing was counted: -ln 0.05.</summary>
    internal const double OfNone = 2.995732;

    /// <summary>Of independent parts: the root of the sum of squares.</summary>
    internal static double Join(double first, double second) => Math.Sqrt((first * first) + (second * second));

    /// <summary>Of a Poisson count.</summary>
    internal static double OfCount(double count) => count > 0.0 ? Normal * Math.Sqrt(count) : OfNone;

    /// <summary>Of a share of so many, by Wilson's interval; measured from the share to the farther end.</summary>
    /// <remarks>Source: Wilson, J. Am. Stat. Assoc. 22, 1927.</remarks>
    internal static double OfShare(double share, double count)
    {
        var square = Normal * Normal;
        var center = (share + (square / (2.0 * count))) / (1.0 + (square / count));
        var half = Normal * Math.Sqrt((share * (1.0 - share) / count) + (square / (4.0 * count * count)))
            / (1.0 + (square / count));
        return half + Math.Abs(center - share);
    }
}
