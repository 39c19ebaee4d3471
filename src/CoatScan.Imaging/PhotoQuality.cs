using System.Globalization;
using CoatScan.Findings;
using CoatScan.Imaging.Cards;
using CoatScan.Metrics.Quality;

namespace CoatScan.Imaging;

/// <summary>What limits trust in a photo, each with what was measured and how to take a better one.</summary>
internal static class PhotoQuality
{
    // C6 of common practice: a mark needs about 4 px, so at 1 mm a pixel everything below 4 mm is lost. No source.
    private const double MaxMmPerPx = 1.0;

    // A panel of 1 m on 400 px has 2.5 mm a pixel. No source.
    private const int MinShorterSidePx = 400;

    // Guesses, no standard found: share of the photo that is clipped to white.
    private const double MaxClippedFraction = 0.05;

    // 95th percentile of L*. A black panel that is exposed well still mirrors something brighter; four stops under the camera's own
    // exposure lie below. No source; set on darkened photos of painted metal.
    private const double MinBrightLightness = 25;

    // Blur that halves a pattern of 8 px, at which fine texture begins: sqrt(32 ln 2) / pi, Fourier transform of a
    // Gaussian. Photos of painted metal judged usable lie below 0.6.
    private const double MaxEdgeBlurPx = 1.5;

    // Above what a card is off by at 45 degrees (3 %); a stated scale that is measured with a rule meets it. No source.
    private const double MaxScaleDifference = 0.05;

    // A length across the tilt then shows 13 % shorter than one along it. No source.
    private const double MaxTiltDegrees = 30;

    /// <summary>All issues of a photo, in the order of <see cref="PhotoIssueCode"/>.</summary>
    public static IReadOnlyList<PhotoIssue> Judge(CaptureReading capture, PhotoReport report, CardReading? card)
    {
        var issues = new List<PhotoIssue>();
        AddBlurred(issues, capture.Sharpness);
        AddGlare(issues, capture.Exposure.ClippedFraction);
        AddTooDark(issues, capture.Exposure.BrightLightness);
        AddLowResolution(issues, report);
        if (report.Scale.MmPerPx is null)
        {
            issues.Add(new PhotoIssue(
                PhotoIssueCode.NoScale,
                "No scale was given and no scale card was found, so lengths are in pixels and nothing is said in millimeters.",
                "Lay a scale card flat on the panel, or a ruler and state millimeters per pixel."));
        }

        AddScaleConflict(issues, report.Scale, card);
        AddOblique(issues, report.Scale);

        return issues;
    }

    private static void AddBlurred(List<PhotoIssue> issues, SharpnessReading? reading)
    {
        // Without edges nothing is known about the focus: a flawless panel of one color looks the same sharp and blurred.
        if (reading is { } sharpness && sharpness.EdgeBlurPx > MaxEdgeBlurPx)
        {
            issues.Add(new PhotoIssue(
                PhotoIssueCode.Blurred,
                string.Create(CultureInfo.InvariantCulture,
                    $"The sharpest edges are blurred by {sharpness.EdgeBlurPx:0.0} px at working size; the limit is {MaxEdgeBlurPx:0.0} px."),
                "Wipe the lens, tap on the damaged place to focus, and hold still or rest the phone."));
        }
    }

    private static void AddGlare(List<PhotoIssue> issues, double clippedFraction)
    {
        if (clippedFraction > MaxClippedFraction)
        {
            issues.Add(new PhotoIssue(
                PhotoIssueCode.Glare,
                string.Create(CultureInfo.InvariantCulture,
                    $"{100 * clippedFraction:0.0} % of the photo is clipped to white; the limit is {100 * MaxClippedFraction:0} %."),
                "Turn so that the light does not mirror into the lens, or shade the panel; expose for the bright parts."));
        }
    }

    private static void AddTooDark(List<PhotoIssue> issues, double brightLightness)
    {
        if (brightLightness < MinBrightLightness)
        {
            issues.Add(new PhotoIssue(
                PhotoIssueCode.TooDark,
                string.Create(CultureInfo.InvariantCulture,
                    $"95 % of the photo is darker than L* {brightLightness:0.0}; the limit is {MinBrightLightness:0}."),
                "Add light or raise the exposure; do not point a flash straight at the panel."));
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

    private static void AddScaleConflict(List<PhotoIssue> issues, PhotoScale scale, CardReading? card)
    {
        if (card is null || scale.Source != ScaleSource.Caller || scale.MmPerPx is not { } stated)
        {
            return;
        }

        double difference = (stated / card.MmPerPx) - 1;
        if (Math.Abs(difference) > MaxScaleDifference)
        {
            issues.Add(new PhotoIssue(
                PhotoIssueCode.ScaleConflict,
                string.Create(CultureInfo.InvariantCulture,
                    $"The stated scale, {stated:0.####} mm per pixel, was used; the card shows {card.MmPerPx:0.####}, {100 * Math.Abs(difference):0} % apart."),
                "Leave the scale to the card, or check that the card was printed at 100 % and lies flat on the panel."));
        }
    }

    private static void AddOblique(List<PhotoIssue> issues, PhotoScale scale)
    {
        if (scale.TiltDegrees is { } tilt && tilt > MaxTiltDegrees)
        {
            // The mean of area over area splits the foreshortening evenly between the two directions.
            double off = 100 * (1 - Math.Sqrt(Math.Cos(tilt * Math.PI / 180)));
            issues.Add(new PhotoIssue(
                PhotoIssueCode.Oblique,
                string.Create(CultureInfo.InvariantCulture,
                    $"The card is tilted by {tilt:0} degrees; the limit is {MaxTiltDegrees:0}. Lengths may be {off:0} % off, depending on their direction."),
                "Hold the camera straight above the panel, as far as your own mirror image lets you."));
        }
    }
}
