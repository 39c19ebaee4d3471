using CoatScan.Findings;

namespace CoatScan.Inspection;

/// <summary>What each limit of a photo takes away: the classifier's word, a measurement, or the verdict "sound".</summary>
/// <remarks>
/// Metrics judge for themselves what they can see in the planes (scale, clipping, size); here is what they cannot: what the photo as a
/// photo does to them. <see cref="PhotoIssue.Limits"/> says the same in words.
/// </remarks>
internal static class PhotoGate
{
    /// <summary>Whether a limit is such that the photo must not speak: it shows the camera, not the paint.</summary>
    public static bool Silences(PhotoIssue issue) => issue.Code
        is PhotoIssueCode.Blurred or PhotoIssueCode.TooDark or PhotoIssueCode.LowResolution or PhotoIssueCode.ScreenPhoto or PhotoIssueCode.Featureless;

    /// <summary>Whether a photo with this limit cannot show that nothing is wrong.</summary>
    public static bool DoubtsSound(PhotoIssue issue) => Silences(issue) || issue.Code
        is PhotoIssueCode.Glare or PhotoIssueCode.Noisy or PhotoIssueCode.Compressed or PhotoIssueCode.FaultTooSmall;

    /// <summary>Whether regions may not be given in millimeters.</summary>
    public static bool WithholdsScale(PhotoIssue issue) => issue.Code == PhotoIssueCode.TooOblique;

    /// <summary>The measurement, or its absence with the first limit that takes it away.</summary>
    public static Measurement Pass(Measurement measurement, IReadOnlyList<PhotoIssue> issues) =>
        measurement.Value is not null && issues.FirstOrDefault(issue => Withholds(issue.Code, measurement.Metric)) is { } limit
            ? Measurement.Absent(measurement.Metric, measurement.Unit, ReasonOf(limit))
            : measurement;

    private static bool Withholds(PhotoIssueCode code, string metric) => code switch
    {
        PhotoIssueCode.ScreenPhoto or PhotoIssueCode.Featureless => !IsOfThePhoto(metric),
        PhotoIssueCode.TooDark => !IsOfThePhoto(metric),
        PhotoIssueCode.Blurred => IsMark(metric) || IsFineTexture(metric),
        PhotoIssueCode.Noisy or PhotoIssueCode.Compressed => IsSmallMark(metric) || IsFineTexture(metric),
        PhotoIssueCode.TooOblique => IsInMillimeters(metric),
        PhotoIssueCode.FaultTooSmall => metric is "spot_diameter_mm" or "spot_diameter_px" || metric.StartsWith("size_class", StringComparison.Ordinal),
        _ => false,
    };

    // They tell of the photo itself and stay true whatever it shows.
    private static bool IsOfThePhoto(string metric) => metric is "sharpness" or "clipped_fraction" or "mean_lightness";

    private static bool IsMark(string metric) =>
        metric.StartsWith("spot_", StringComparison.Ordinal) || metric.StartsWith("line_", StringComparison.Ordinal);

    // Noise and coding change which small spots and lines are found, and with them every number of all spots.
    private static bool IsSmallMark(string metric) => IsMark(metric)
        && metric is not ("spot_count_16_32_px" or "spot_count_32_64_px" or "spot_count_64_128_px");

    private static bool IsFineTexture(string metric) =>
        metric is "waviness_contrast_4_8_px" or "waviness_contrast_8_16_px" or "waviness_edge_4_8_px" or "waviness_edge_8_16_px"
        || (metric.StartsWith("waviness_", StringComparison.Ordinal) && metric.EndsWith("_mm", StringComparison.Ordinal));

    private static bool IsInMillimeters(string metric) =>
        metric.EndsWith("_mm", StringComparison.Ordinal) || metric.EndsWith("_per_dm2", StringComparison.Ordinal);

    private static string ReasonOf(PhotoIssue issue)
    {
        string detail = issue.Detail.TrimEnd('.');
        return char.ToLowerInvariant(detail[0]) + detail[1..];
    }
}
