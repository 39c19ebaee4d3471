using System.Runtime.CompilerServices;
using CoatScan.Findings;
using CoatScan.Metrics.Marks;
using CoatScan.Metrics.Quality;
using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Zones;

/// <summary>Share of the panel that has the color of iron rust, and of what has not quite that color.</summary>
/// <remarks>
/// <para><c>rust_colored_fraction</c>: [0, 1] of the cells that are not clipped, without patches of even color.
/// <c>even_red_brown_fraction</c>: patches of that color as even as paint: red-brown primer, a painted part or the reflection of something
/// warm is, rust is mottled; small patches cannot show which and count as rust. <c>stain_colored_fraction</c>: brown and yellow that is
/// not red enough for rust, which ASTM D610 says must not be counted. Colors: see <see cref="WarmColors"/>.
/// <c>rust_patch_count</c>; <c>rust_patch_large_px</c>, <c>rust_patch_large_mm</c>: diameter of the disk of equal area that one patch in
/// ten exceeds. <c>rust_nearest_ratio</c>: see <see cref="SpotPattern"/>.</para>
/// <para>It is a color, not a substance: soil, wood, leaves and brown plastic can have it, and mottled primer too.</para>
/// <para>Half width of a share: half of what it changes when all limits move by 3 Lab units out and in (about the error of white balance
/// and of color in a photo), joined with half a pixel along the rims, where photos store color at half resolution; of the even share also
/// what is too small to be judged. Counts: Poisson.</para>
/// <para>Absent where even the coolest tenth is warm (12 units): under a warm light, on warm paint or on a panel that is rust all
/// over the photo has nothing to compare with. Also absent if more than half is clipped or the photo is too dark for hue.</para>
/// <para>Cost: O(n / 4). Source: the limits are our own; that stains must not be counted as rust: ASTM D610.</para>
/// </remarks>
internal static class RustMetrics
{
    internal const string Metric = "rust_colored_fraction";

    internal const string AllWarm =
        "the whole panel is warm in color: rust cannot be told from warm light or warm paint";

    internal const string MostlyClipped = "more than half of the panel is clipped to white";
    internal const string TooDark = "the panel is too dark to tell a hue";
    internal const string NoRust = "nothing has the color of rust";
    internal const string TooFewPatches = "there are too few patches of rust to tell a pattern: 8 are needed";

    private const double LargestCoolWarmth = 12.0;
    private const double LeastLightness = 4.0;
    private const double EdgePx = 0.5;
    private const double LargeShare = 0.9;

    internal static void Measure(PanelPlanes panel, ColorScene scene, double meanLightness, List<Measurement> measurements)
    {
        var clipped = scene.Clipped.AsSpan().Count(true);
        var cool = CoolWarmth(scene);
        var reason = 2 * clipped > scene.Clipped.Length ? MostlyClipped
            : meanLightness < LeastLightness ? TooDark
            : cool > LargestCoolWarmth ? AllWarm
            : null;
        var reading = reason is null ? RustReading.Of(scene, (float)cool + WarmColors.LeastExcessWarmth) : RustReading.None;
        var usable = Math.Max(1.0, scene.Clipped.Length - clipped);
        AddShare(Metric, reading.Rust, 0.0, usable, reason, measurements);
        AddShare("even_red_brown_fraction", reading.Even, reading.UndecidedCells, usable, reason, measurements);
        AddShare("stain_colored_fraction", reading.Stain, 0.0, usable, reason, measurements);
        AddPatches(panel, scene, reading.Patches, reason, measurements);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static double CoolWarmth(ColorScene scene)
    {
        var histogram = new ValueHistogram(-120.0f, 120.0f, 2400);
        var (a, b) = (scene.Lab.AStar.Values, scene.Lab.BStar.Values);
        for (var y = 0; y < scene.Height; y += 2)
        {
            for (var i = y * scene.Width; i < (y + 1) * scene.Width; i += 2)
            {
                if (!scene.Clipped[i])
                {
                    histogram.Add(WarmColors.Warmth(a[i], b[i]));
                }
            }
        }

        return histogram.Quantile(WarmColors.CoolShare);
    }

    private static void AddShare(
        string metric, ColorShare share, double undecided, double usable, string? reason, List<Measurement> measurements)
    {
        var limits = Math.Max(share.Loose - share.Nominal, share.Nominal - share.Strict);
        var edge = EdgePx / ColorScene.CellPx * share.RimCells;
        measurements.Add(SpotMetrics.Value(
            metric, share.Nominal / usable, "1", reason, HalfWidth.Join(HalfWidth.Join(limits, edge), undecided) / usable));
    }

    private static void AddPatches(
        PanelPlanes panel, ColorScene scene, List<Component> patches, string? reason, List<Measurement> measurements)
    {
        var none = reason ?? (patches.Count == 0 ? NoRust : null);
        measurements.Add(SpotMetrics.Value("rust_patch_count", patches.Count, "1", reason, HalfWidth.OfCount(patches.Count)));
        var sizes = patches.ConvertAll(patch => ColorScene.CellPx * patch.EquivalentDiameterPx);
        sizes.Sort();
        var last = sizes.Count - 1;
        var large = none is null ? sizes[(int)Math.Ceiling(LargeShare * last)] : 0.0;

        // The quantile's rank is known to the root of the binomial's variance only; of a few patches any may be the large one.
        var ranks = HalfWidth.Normal * Math.Sqrt(LargeShare * (1.0 - LargeShare) * sizes.Count);
        var least = none is null ? sizes[Math.Clamp((int)Math.Floor((LargeShare * last) - ranks), 0, last)] : 0.0;
        var half = none is null ? HalfWidth.Join(Math.Max(large - least, sizes[^1] - large), 2.0 * EdgePx) : 0.0;
        measurements.Add(SpotMetrics.Value("rust_patch_large_px", large, "{px}", none, half));
        var mm = panel.MmPerPx ?? 0.0;
        measurements.Add(SpotMetrics.Value(
            "rust_patch_large_mm", large * mm, "mm", none ?? (panel.MmPerPx is null ? AbsentReasons.NoScale : null),
            HalfWidth.Join(half * mm, large * mm * (panel.ScaleUncertainty ?? 0.0))));
        var few = reason ?? (patches.Count < SpotPattern.LeastSpots ? TooFewPatches : null);
        var pattern = few is null
            ? SpotPattern.Of([.. patches.Select(patch => (patch.CenterX, patch.CenterY))], scene.Width, scene.Height)
            : default;
        measurements.Add(SpotMetrics.Value("rust_nearest_ratio", pattern.Ratio, "1", few, pattern.HalfWidth));
    }
}
