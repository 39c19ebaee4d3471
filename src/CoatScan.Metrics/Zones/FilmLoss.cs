using CoatScan.Findings;
using CoatScan.Metrics.Marks;

namespace CoatScan.Metrics.Zones;

/// <summary>How much of the paint is missing: flaked, peeled or chipped areas that show another color with a step at the edge.</summary>
/// <remarks>
/// <para><c>film_loss_fraction</c>: [0, 1] of the area seen. <c>film_loss_count</c>: number of areas.
/// <c>film_loss_large_px</c>, <c>film_loss_large_mm</c>: diameter of the disk of equal area that one area in ten exceeds.
/// Half width of the share: half of what it changes with the limits (see <see cref="BodyDifference"/>), joined with a cell along the rims and with the areas near
/// the limits of size and step, which another photo may count or not; those widen the count too.</para>
/// <para>May include anything that is no paint of the panel: trim, badges, lamps, another panel's color, a colored reflection with a sharp
/// edge. What the loss bares is told only by its color: gray primer and bright metal look alike, and clear coat that has come
/// off without a change of color is not seen at all.</para>
/// <para>On paint without a color of its own (chroma under 10) only loss that bares another hue is counted: it is at least so much.
/// Absent where none is found there, because gray undercoat, metal and a reflection of the sky look alike on gray; no color that at least a third of the picture has; a panel under 64 px, mostly clipped or too dark.</para>
/// <para>Cost: O(n), about 16 planes of 512 cells. Source: see <see cref="FilmLossReading"/>.</para>
/// </remarks>
internal static class FilmLoss
{
    internal const string Metric = "film_loss_fraction";

    internal const string Neutral =
        "the paint has no color of its own: gray undercoat, metal and the reflection of the sky look alike on it";

    internal const string NoPaint = "no one color fills a third of the picture, so that it cannot be told what the paint is";
    internal const string TooSmall = "the panel is too small: 64 px are needed on the short side";
    internal const string NoLoss = "no area of another color has a step at its edge";

    private const int LeastSidePx = 64;
    private const double LeastPaintShare = 1.0 / 3.0;
    private const double LeastLightness = 4.0;
    private const double EdgeCells = 1.0;
    private const double LargeShare = 0.9;

    internal static void Measure(
        PanelPlanes panel, ColorScene scene, PlaneScope scope, double meanLightness, List<Measurement> measurements)
    {
        var reading = FilmLossReading.Of(scene, scope);
        var clipped = scene.Clipped.AsSpan().Count(true);
        var reason = Math.Min(panel.Width, panel.Height) < LeastSidePx ? TooSmall
            : 2 * clipped > scene.Clipped.Length ? RustMetrics.MostlyClipped
            : meanLightness < LeastLightness ? RustMetrics.TooDark
            : reading.Paint.Share < LeastPaintShare ? NoPaint
            : reading.Paint.Lab.Chroma < BodyDifference.LeastChroma && reading.Areas.Count == 0 ? Neutral
            : null;
        Add(panel, reading, reason, measurements);
    }

    private static void Add(PanelPlanes panel, FilmLossReading reading, string? reason, List<Measurement> measurements)
    {
        var lost = reading.Lost;
        var cells = panel.Width * (double)panel.Height / (reading.CellPx * reading.CellPx);
        double doubtful = reading.Doubtful.Sum(area => area.AreaPx);
        var half = HalfWidth.Join(
            HalfWidth.Join(Math.Max(lost.Loose - lost.Nominal, lost.Nominal - lost.Strict), EdgeCells * lost.RimCells), doubtful);
        measurements.Add(SpotMetrics.Value(Metric, Math.Min(1.0, lost.Nominal / cells), "1", reason, half / cells));
        var count = reading.Areas.Count;
        measurements.Add(SpotMetrics.Value("film_loss_count", count, "1", reason, HalfWidth.Join(HalfWidth.OfCount(count), reading.Doubtful.Count)));
        var none = reason ?? (count == 0 ? NoLoss : null);
        var sizes = reading.Areas.ConvertAll(area => reading.CellPx * area.EquivalentDiameterPx);
        sizes.Sort();
        var large = none is null ? sizes[(int)Math.Ceiling(LargeShare * (count - 1))] : 0.0;

        // The quantile's rank is known to the root of the binomial's variance only.
        var ranks = HalfWidth.Normal * Math.Sqrt(LargeShare * (1.0 - LargeShare) * count);
        var least = none is null ? sizes[Math.Clamp((int)Math.Floor((LargeShare * (count - 1)) - ranks), 0, count - 1)] : 0.0;
        var edge = HalfWidth.Join(2.0 * EdgeCells * reading.CellPx, Math.Max(large - least, (none is null ? sizes[^1] : 0.0) - large));
        measurements.Add(SpotMetrics.Value("film_loss_large_px", large, "{px}", none, edge));
        var mm = panel.MmPerPx ?? 0.0;
        measurements.Add(SpotMetrics.Value(
            "film_loss_large_mm", large * mm, "mm", none ?? (panel.MmPerPx is null ? AbsentReasons.NoScale : null),
            HalfWidth.Join(edge * mm, large * mm * (panel.ScaleUncertainty ?? 0.0))));
    }
}
