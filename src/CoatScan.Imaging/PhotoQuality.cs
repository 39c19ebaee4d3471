using System.Globalization;
using CoatScan.Findings;
using CoatScan.Metrics;

namespace CoatScan.Imaging;

/// <summary>What limits trust in a photo, each with what was measured and how to take a better one.</summary>
internal static class PhotoQuality
{
    // C6 of common practice: a mark needs about 4 px, so at 1 mm a pixel everything below 4 mm is lost. No source.
    private const double MaxMmPerPx = 1.0;

    // A panel of 1 m on 480 px has 2 mm a pixel. No source.
    private const int MinShorterSidePx = 480;

    // Guesses, no standard found: share of the photo that is clipped to white.
    private const double MaxClippedFraction = 0.05;

    // Median lightness below which sensor noise is of the size of slight marks; no source.
    private const double MinMedianLightness = 12;

    /// <summary>All issues of a photo, in the order of <see cref="PhotoIssueCode"/>.</summary>
    public static IReadOnlyList<PhotoIssue> Judge(PanelPlanes planes, PhotoReport report)
    {
        var issues = new List<PhotoIssue>();
        AddGlare(issues, planes);
        AddTooDark(issues, planes);
        AddLowResolution(issues, report);
        if (report.Scale.MmPerPx is null)
        {
            issues.Add(new PhotoIssue(
                PhotoIssueCode.NoScale,
                "No scale was given, so lengths are in pixels and nothing is said in millimeters.",
                "Lay a ruler or a scale card on the panel and state millimeters per pixel."));
        }

        return issues;
    }

    private static void AddGlare(List<PhotoIssue> issues, PanelPlanes planes)
    {
        int clipped = planes.Clipped.AsSpan().Count(true);
        double fraction = (double)clipped / planes.Clipped.Length;
        if (fraction > MaxClippedFraction)
        {
            issues.Add(new PhotoIssue(
                PhotoIssueCode.Glare,
                string.Create(CultureInfo.InvariantCulture,
                    $"{100 * fraction:0.0} % of the photo is clipped to white; the limit is {100 * MaxClippedFraction:0} %."),
                "Turn so that the light does not mirror into the lens, or shade the panel; expose for the bright parts."));
        }
    }

    private static void AddTooDark(List<PhotoIssue> issues, PanelPlanes planes)
    {
        float[] sorted = (float[])planes.Lightness.Values.Clone();
        Array.Sort(sorted);
        double median = sorted[sorted.Length / 2];
        if (median < MinMedianLightness)
        {
            issues.Add(new PhotoIssue(
                PhotoIssueCode.TooDark,
                string.Create(CultureInfo.InvariantCulture,
                    $"The median lightness is L* {median:0.0}; the limit is {MinMedianLightness:0}."),
                "Add light or raise the exposure; do not use flash straight at the panel."));
        }
    }

    private static void AddLowResolution(List<PhotoIssue> issues, PhotoReport report)
    {
        int shorter = Math.Min(report.WidthPx, report.HeightPx);
        if (shorter < MinShorterSidePx)
        {
            issues.Add(new PhotoIssue(
                PhotoIssueCode.LowResolution,
                $"The shorter side has {shorter} px; the limit is {MinShorterSidePx} px.",
                "Send the original of the camera, not a thumbnail or a screenshot."));
        }
        else if (report.Scale.MmPerPx is { } scale && scale > MaxMmPerPx)
        {
            issues.Add(new PhotoIssue(
                PhotoIssueCode.LowResolution,
                string.Create(CultureInfo.InvariantCulture,
                    $"One pixel covers {scale:0.00} mm; the limit is {MaxMmPerPx:0.0} mm."),
                "Go closer, so that the damaged place fills the photo."));
        }
    }
}
