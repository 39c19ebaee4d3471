using System.Globalization;
using CoatScan.Findings;
using CoatScan.Imaging.Cards;

namespace CoatScan.Imaging;

/// <summary>What limits trust in the sizes that a photo gives.</summary>
internal static class ScaleQuality
{
    // C6 of common practice: a mark needs about 4 px, so at 1 mm a pixel everything below 4 mm is lost. No source.
    private const double MaxMmPerPx = 1.0;

    // A panel of 1 m on 400 px has 2.5 mm a pixel. No source.
    private const int MinShorterSidePx = 400;

    // Above what a card is off by at 45 degrees (3 %); a stated scale that is measured with a rule meets it. No source.
    private const double MaxScaleDifference = 0.05;

    // A length across the tilt then shows 13 % shorter than one along it. No source.
    private const double MaxTiltDegrees = 30;

    // Common practice of evidence photos: 45 degrees off square. Lengths across the tilt are then 29 % shorter than along it, what stands
    // off the panel is displaced by its height, and the card is proven to 45 degrees only.
    private const double MaxMeasuredTiltDegrees = 45;

    /// <summary>The issues, in the order of <see cref="PhotoIssueCode"/>.</summary>
    public static IEnumerable<PhotoIssue> Judge(PhotoReport report, CardReading? card) => new[]
    {
        LowResolution(report),
        report.Scale.MmPerPx is null
            ? new PhotoIssue(
                PhotoIssueCode.NoScale,
                "No scale was given and no scale card was found, so lengths are in pixels and nothing is said in millimeters.",
                "Lay a scale card flat on the panel, or a ruler and state millimeters per pixel.",
                "Kind, count and share of the area still hold; sizes, size classes and everything per area are unknown.")
            : null,
        ScaleConflict(report.Scale, card),
        Oblique(report.Scale),
    }.OfType<PhotoIssue>();

    private static PhotoIssue? LowResolution(PhotoReport report)
    {
        int shorter = Math.Min(report.WidthPx, report.HeightPx);
        const string limits = "What is coarser than a few pixels still shows; finer marks do not, so the paint is not judged by this photo.";
        if (shorter < MinShorterSidePx)
        {
            return new PhotoIssue(
                PhotoIssueCode.LowResolution,
                $"The shorter side has {shorter} px; the limit is {MinShorterSidePx} px.",
                "Send the original of the camera, not a thumbnail or a screenshot.",
                limits);
        }

        return report.Scale.MmPerPx is { } scale && scale > MaxMmPerPx
            ? new PhotoIssue(
                PhotoIssueCode.LowResolution,
                string.Create(CultureInfo.InvariantCulture,
                    $"One pixel covers {scale:0.00} mm; the limit is {MaxMmPerPx:0.0} mm."),
                "Go closer, so that the damaged place fills the photo.",
                limits)
            : null;
    }

    private static PhotoIssue? ScaleConflict(PhotoScale scale, CardReading? card)
    {
        if (card is null || scale.Source != ScaleSource.Caller || scale.MmPerPx is not { } stated)
        {
            return null;
        }

        double difference = (stated / card.MmPerPx) - 1;
        return Math.Abs(difference) > MaxScaleDifference
            ? new PhotoIssue(
                PhotoIssueCode.ScaleConflict,
                string.Create(CultureInfo.InvariantCulture,
                    $"The stated scale, {stated:0.####} mm per pixel, was used; the card shows {card.MmPerPx:0.####}, {100 * Math.Abs(difference):0} % apart."),
                "Leave the scale to the card, or check that the card was printed at 100 % and lies flat on the panel.",
                "What is counted or a share still holds; everything in millimeters is uncertain by that difference.")
            : null;
    }

    private static PhotoIssue? Oblique(PhotoScale scale) => scale.TiltDegrees switch
    {
        > MaxMeasuredTiltDegrees and var tilt => new PhotoIssue(
            PhotoIssueCode.TooOblique,
            string.Create(CultureInfo.InvariantCulture,
                $"The card is tilted by {tilt:0} degrees; beyond {MaxMeasuredTiltDegrees:0} no length and no area is given."),
            "Hold the camera straight above the panel, as far as your own mirror image lets you, and take the photo again.",
            "Kind, count and share of the photo still hold; nothing is said in millimeters."),
        > MaxTiltDegrees and var tilt => new PhotoIssue(
            PhotoIssueCode.Oblique,
            string.Create(CultureInfo.InvariantCulture,
                $"The card is tilted by {tilt:0} degrees; the limit is {MaxTiltDegrees:0}. At its place lengths may be {LengthsOffPercent(tilt):0} % off, depending on their direction."),
            "Hold the camera straight above the panel, as far as your own mirror image lets you.",
            "Marks in the card's plane are still measured at their place; averages over the whole photo in millimeters carry a large uncertainty."),
        _ => null,
    };

    // The mean of area over area splits the foreshortening evenly between the two directions.
    private static double LengthsOffPercent(double tiltDegrees) => 100 * (1 - Math.Sqrt(Math.Cos(tiltDegrees * Math.PI / 180)));
}
