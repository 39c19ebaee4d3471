using System.Globalization;
using CoatScan.Classification;
using CoatScan.Findings;
using CoatScan.Metrics;

namespace CoatScan.Inspection;

/// <summary>Whether the marks that a photo is about have enough pixels to tell a ring from a disk and a dome from a pit.</summary>
internal static class FaultSize
{
    // Common practice of evidence photos, no source.
    private const double MinDiameterPx = 8;

    // Share from which the photo is about one kind of mark.
    private const double MinShare = 0.5;

    private static readonly string[] MarkClasses =
    [
        VisualClasses.Stains, VisualClasses.Deposits, VisualClasses.Rings, VisualClasses.Domes, VisualClasses.Craters, VisualClasses.Pits,
        VisualClasses.Nibs, VisualClasses.Chips,
    ];

    /// <summary>The issue; null if the photo is not about small marks, or the largest of them is large enough.</summary>
    /// <param name="reading">What the classifier sees, regions in pixels of the original.</param>
    /// <param name="spots">Spots, largest first, in pixels of the planes.</param>
    /// <param name="originalPxPerPx">Pixels of the original per pixel of the planes.</param>
    public static PhotoIssue? Judge(VisualReading reading, IReadOnlyList<Mark> spots, double originalPxPerPx)
    {
        var seen = reading.Shares.MaxBy(share => share.Probability);
        if (!reading.IsPanel || seen is null || seen.Probability < MinShare || !MarkClasses.Contains(seen.VisualClass))
        {
            return null;
        }

        var largest = spots
            .Where(spot => seen.Regions.Any(region => Lies(spot, region, originalPxPerPx)))
            .Select(spot => spot.DiameterPx)
            .DefaultIfEmpty(double.NaN)
            .Max();
        return largest < MinDiameterPx
            ? new PhotoIssue(
                PhotoIssueCode.FaultTooSmall,
                string.Create(CultureInfo.InvariantCulture,
                    $"The largest mark where the fault shows is {largest:0.0} px across; the limit is {MinDiameterPx:0} px."),
                "Take a second photo from 15 to 25 cm, sharp, with the scale in the frame.",
                "That there are marks, where and how many still counts; their size and shape do not, and the panel is not called sound.")
            : null;
    }

    private static bool Lies(Mark spot, Region region, double originalPxPerPx)
    {
        var x = originalPxPerPx * (spot.StartXPx + spot.EndXPx) / 2.0;
        var y = originalPxPerPx * (spot.StartYPx + spot.EndYPx) / 2.0;
        return x >= region.StartXPx && x < region.EndXPx && y >= region.StartYPx && y < region.EndYPx;
    }
}
