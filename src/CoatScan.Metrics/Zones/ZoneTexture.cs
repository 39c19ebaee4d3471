using CoatScan.Findings;
using CoatScan.Metrics.Marks;

namespace CoatScan.Metrics.Zones;

/// <summary>Texture of a second zone against a first one of the same photo: stronger or weaker, finer or coarser, grittier or smoother.</summary>
/// <remarks>
/// <para><c>texture_contrast_ratio</c>: rms step of lightness between points 2 px apart, second over first; 1 is alike, more is stronger.
/// <c>texture_correlation_difference</c>: correlation of such points, second less first; below 0 the grain is finer.
/// <c>texture_uniform_difference</c>: share of pixels with a uniform local pattern, second less first; below 0 grittier. Dry spray and
/// overspray beside sound film are stronger, finer and grittier; mottling is stronger and coarser. Alone none of them names a fault, and noise
/// of the camera, which is in both zones, draws all toward alike.</para>
/// <para>One zone by itself is not stated: what the paint mirrors, dirt and noise make as much texture as the film does (rendered panels without grit spread over nearly as
/// much as gritty ones). Two zones in the same light have it in common, if the same things are mirrored in both.</para>
/// <para>Absent: the light differs between the zones, see <see cref="ZoneLight"/>; a zone under 48 px; a first zone without any texture.</para>
/// <para>Half widths: from the scatter of sixteen tiles in each zone, root of the sum of squares. Pixels are those of the planes. Cost and
/// sources: see <see cref="TextureReading"/>.</para>
/// </remarks>
internal static class ZoneTexture
{
    internal const string Contrast = "texture_contrast_ratio";
    internal const string Correlation = "texture_correlation_difference";
    internal const string Uniform = "texture_uniform_difference";
    internal const string TooSmall = "a zone is too small for its texture: 48 px of the reduced photo are needed on each side";
    internal const string NoTexture = "the first zone has no texture to compare with";

    internal static IEnumerable<Measurement> Measure(Plane lightness, ZoneColor first, ZoneColor second)
    {
        if (Read(lightness, first) is not { } one || Read(lightness, second) is not { } two)
        {
            return Absent(TooSmall);
        }

        if (one.Contrast.Value <= 0.0)
        {
            return Absent(NoTexture);
        }

        var ratio = Math.Sqrt(two.Contrast.Value / one.Contrast.Value);

        // The root halves a relative error.
        var relative = 0.5 * HalfWidth.Join(
            one.Contrast.HalfWidth / one.Contrast.Value, two.Contrast.HalfWidth / Math.Max(two.Contrast.Value, double.Epsilon));
        return
        [
            Measurement.Of(Contrast, ratio, "1", ratio * relative),
            Measurement.Of(
                Correlation,
                two.Correlation.Value - one.Correlation.Value,
                "1",
                HalfWidth.Join(one.Correlation.HalfWidth, two.Correlation.HalfWidth)),
            Measurement.Of(
                Uniform,
                two.UniformShare.Value - one.UniformShare.Value,
                "1",
                HalfWidth.Join(one.UniformShare.HalfWidth, two.UniformShare.HalfWidth)),
        ];
    }

    internal static IEnumerable<Measurement> Absent(string reason) =>
        [.. new[] { Contrast, Correlation, Uniform }.Select(metric => Measurement.Absent(metric, "1", reason))];

    private static TextureReading? Read(Plane lightness, ZoneColor zone) => TextureReading.Of(
        lightness,
        (int)Math.Round(zone.CenterX - (zone.Width / 2.0)),
        (int)Math.Round(zone.CenterY - (zone.Height / 2.0)),
        zone.Width,
        zone.Height);
}
