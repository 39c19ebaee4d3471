namespace CoatScan.Metrics.Ratings;

/// <summary>Distribution letter of ASTM D610 from number, size and nearest neighbors of the patches; null where they do not tell.</summary>
/// <remarks>
/// Our convention for what the standard shows in pictures: P where nine patches in ten are at most 1 mm wide; S for fewer than 8 patches, or where they
/// lie in clusters (nearest ratio below 1 by more than its half width); else G. Without a scale P cannot be told from G, and no letter is given for
/// many patches. H, a mixture, is left to the eye.
/// </remarks>
internal static class RustDistribution
{
    private const double PinpointMm = 1.0;

    internal static char? Letter(double? largeMm, double? nearestRatio, double? nearestHalfWidth)
    {
        if (largeMm <= PinpointMm)
        {
            return 'P';
        }

        if (nearestRatio is not { } ratio || ratio + (nearestHalfWidth ?? 0.0) < 1.0)
        {
            return 'S';
        }

        return largeMm is null ? null : 'G';
    }
}
