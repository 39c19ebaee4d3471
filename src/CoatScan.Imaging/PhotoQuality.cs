using System.Globalization;
using CoatScan.Findings;
using CoatScan.Imaging.Cards;
using CoatScan.Metrics.Quality;

namespace CoatScan.Imaging;

/// <summary>What limits trust in a photo, each with what was measured, what the photo still supports, and how to take a better one.</summary>
internal static class PhotoQuality
{
    // Guesses, no standard found: share of the photo that is clipped to white.
    private const double MaxClippedFraction = 0.05;

    // 95th percentile of L*. A black panel that is exposed well still mirrors something brighter; four stops under the camera's own
    // exposure lie below. No source; set on darkened photos of painted metal.
    private const double MinBrightLightness = 25;

    // White paper has about 0.9 where a perfect white is just not clipped; four stops below, the same limit for a photo with a card.
    private const double MinPaperLevel = 0.9 / 16;

    // Blur that halves a pattern of 8 px, at which fine texture begins: sqrt(32 ln 2) / pi, Fourier transform of a
    // Gaussian. Photos of painted metal judged usable lie below 0.6.
    private const double MaxEdgeBlurPx = 1.5;

    // L*. A faint mark, 3 L* from the paint, is then no stronger than the noise of a pixel. No source; phone photos of painted metal
    // lie below 1.1.
    private const double MaxNoiseLightness = 3;

    // Codes of 255, about 0.4 L* each at mid gray, for the wavelength of fine texture. No source.
    private const double MaxLostCodes = 3;

    // Share of the tiles that show a lattice; none of 71 phone photos of painted metal has any. No source.
    private const double MaxScreenShare = 0.25;

    // L*, about what an eye can just tell apart. No source; 71 phone photos of painted metal have 4.4 or more, rendered panels with a
    // fault 2.6 or more; pictures of one tone, of a slow change of tone and of noise alone have 0 to 0.9.
    private const double LeastStructure = 1;

    /// <summary>All issues of a photo, in the order of <see cref="PhotoIssueCode"/>.</summary>
    /// <param name="capture">What was measured on the planes.</param>
    /// <param name="report">Size, scale and color.</param>
    /// <param name="card">The scale card; null without one.</param>
    /// <param name="lost">What the coding of the file and an earlier one lost.</param>
    public static IReadOnlyList<PhotoIssue> Judge(CaptureReading capture, PhotoReport report, CardReading? card, LostTexture lost) =>
        [
            .. new[]
            {
                Blurred(capture.Sharpness),
                Glare(capture.Exposure.ClippedFraction),
                TooDark(capture.Exposure.BrightLightness, report.Color.PaperLevel),
            }.OfType<PhotoIssue>(),
            .. ScaleQuality.Judge(report, card),
            .. new[]
            {
                Noisy(capture.NoiseLightness),
                Compressed(lost),
                Screen(capture.ScreenShare),
                Featureless(capture.Structure),
            }.OfType<PhotoIssue>(),
        ];

    // Without edges nothing is known about the focus: a flawless panel of one color looks the same sharp and blurred.
    private static PhotoIssue? Blurred(SharpnessReading? reading) =>
        reading is { } sharpness && sharpness.EdgeBlurPx > MaxEdgeBlurPx
            ? new PhotoIssue(
                PhotoIssueCode.Blurred,
                Text($"The sharpest edges rise over {sharpness.EdgeRisePx:0.0} px from 10 to 90 % at working size; the limit is {2.5631 * MaxEdgeBlurPx:0.0} px."),
                "Wipe the lens, tap on the damaged place to focus, and hold still or rest the phone.",
                "Color and large areas still count; fine marks, lines and texture do not, and the paint is not judged by this photo.")
            : null;

    private static PhotoIssue? Glare(double clippedFraction) =>
        clippedFraction > MaxClippedFraction
            ? new PhotoIssue(
                PhotoIssueCode.Glare,
                Text($"{100 * clippedFraction:0.0} % of the photo is clipped to white; the limit is {100 * MaxClippedFraction:0} %."),
                "Turn so that the light does not mirror into the lens, or shade the panel; expose for the bright parts.",
                "What shows beside the glare still counts; under it nothing shows, so the panel is not called sound by this photo.")
            : null;

    // A card's paper is known to be white; without one, only that something in a photo is bright.
    private static PhotoIssue? TooDark(double brightLightness, double? paperLevel)
    {
        string? detail = paperLevel is { } paper
            ? paper < MinPaperLevel
                ? Text($"The white paper of the card has {100 * paper:0.0} % of full light; the limit is {100 * MinPaperLevel:0.0} %.")
                : null
            : brightLightness < MinBrightLightness
                ? Text($"95 % of the photo is darker than L* {brightLightness:0.0}; the limit is {MinBrightLightness:0}.")
                : null;
        return detail is null
            ? null
            : new PhotoIssue(
                PhotoIssueCode.TooDark,
                detail,
                "Add light or raise the exposure; do not point a flash straight at the panel.",
                "Marks cannot be told from noise, so nothing is counted and the paint is not judged by this photo.");
    }

    private static PhotoIssue? Noisy(double? noise) =>
        noise > MaxNoiseLightness
            ? new PhotoIssue(
                PhotoIssueCode.Noisy,
                Text($"The noise is L* {noise:0.0} from pixel to pixel; the limit is {MaxNoiseLightness:0.0}."),
                "Add light, so that the camera needs less amplification, and rest the phone.",
                "Large and strong marks still show; small spots, fine lines and fine texture are not measured, and the panel is not called sound.")
            : null;

    private static PhotoIssue? Compressed(LostTexture lost) =>
        Math.Max(lost.InFileCodes, lost.EarlierCodes) > MaxLostCodes
            ? new PhotoIssue(
                PhotoIssueCode.Compressed,
                lost.EarlierCodes > lost.InFileCodes
                    ? Text($"An earlier compression, still seen in the pixels, lost all fine texture under {lost.EarlierCodes:0.0} of 255 codes; the limit is {MaxLostCodes:0.0}.")
                    : Text($"Compression lost all fine texture under {lost.InFileCodes:0.0} of 255 codes; the limit is {MaxLostCodes:0.0}."),
                "Send the original file of the camera, not one that a messenger or website has reduced.",
                "Large and strong marks still show; small spots, fine lines and fine texture are not measured, and the panel is not called sound.")
            : null;

    private static PhotoIssue? Screen(double? share) =>
        share >= MaxScreenShare
            ? new PhotoIssue(
                PhotoIssueCode.ScreenPhoto,
                Text($"{100 * share:0} % of the photo shows the fine lattice of a display; the limit is {100 * MaxScreenShare:0} %."),
                "Photograph the panel itself, or send the file that the display shows.",
                "The display's dots, color and scale stand for the paint's, so nothing is measured and the paint is not judged by this photo.")
            : null;

    private static PhotoIssue? Featureless(double? structure) =>
        structure < LeastStructure
            ? new PhotoIssue(
                PhotoIssueCode.Featureless,
                Text($"The photo shows one even tone: beyond noise and slow changes of light its tones differ by L* {structure:0.00}; the limit is {LeastStructure:0.00}."),
                "Step back until an edge, a seam or a handle of the panel is in the picture, or let something with straight edges mirror in it.",
                "Nothing in it tells that it is a painted panel, so nothing is measured and the paint is not judged by this photo.")
            : null;

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
