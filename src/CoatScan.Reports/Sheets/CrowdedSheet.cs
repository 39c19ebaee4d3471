using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Whether a finding has so much to show that its sheet says less of each part to keep to two pages.</summary>
internal static class CrowdedSheet
{
    private const int ManyPhotos = 4;

    /// <summary>Four photos or more, or ratings, whose table says what each was computed from.</summary>
    public static bool Is(Finding finding) => finding.Photos.Count >= ManyPhotos || finding.Ratings.Count > 0;
}
