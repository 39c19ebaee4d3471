using System.Runtime.CompilerServices;
using CoatScan.Findings;

namespace CoatScan.Metrics.Quality;

/// <summary>Sharpness, exposure and typical color of the panel.</summary>
/// <remarks>
/// <para><c>sharpness</c>: modulation left at a wavelength of 8 px of the planes, (0, 1], see <see cref="SharpnessReading"/>;
/// absent without edges.</para>
/// <para><c>clipped_fraction</c>: share of clipped pixels, [0, 1]. <c>mean_lightness</c>: mean CIE L*, [0, 100].</para>
/// <para><c>panel_l</c>, <c>panel_a</c>, <c>panel_b</c>: medians of CIE L*, a*, b* over the pixels of every second row and column that are
/// not clipped; they
/// describe the photo, not the paint: light, angle and camera are in them. Absent if all pixels are clipped.</para>
/// <para>Half widths: of means and medians the scatter of 4 x 4 tiles (1.96 standard errors; of a median 1.2533 times that, its ratio for
/// normal values, at least the half step of 8-bit color codes, 0.4); of the clipped share one pixel along its rims; of the sharpness the rank of its quantile.</para>
/// </remarks>
internal static class PanelAppearance
{
    // A step of one in 8-bit Cb or Cr moves mid gray by about 0.8 in a* or b*.
    private const double CodeStep = 0.4;

    internal const string NoEdges = "the photo shows no edges that could tell its focus";
    internal const string AllClipped = "every pixel is clipped to white";

    internal static void Measure(PanelPlanes panel, CaptureReading capture, List<Measurement> measurements)
    {
        var (sharpness, exposure) = capture;
        measurements.Add(sharpness is { } reading
            ? Measurement.Of("sharpness", reading.ModulationAt8Px, "1", reading.ModulationHalfWidth)
            : Measurement.Absent("sharpness", "1", NoEdges));
        measurements.Add(Measurement.Of(
            "clipped_fraction", exposure.ClippedFraction, "1", RimShare(panel.Clipped, panel.Width, panel.Height)));
        var lightness = TileScatter.Of(panel.Lightness, panel.Clipped);
        measurements.Add(Measurement.Of("mean_lightness", exposure.MeanLightness, "1", lightness.MeanHalfWidth));
        measurements.Add(Median("panel_l", panel.Lightness, panel.Clipped, lightness));
        measurements.Add(Median("panel_a", panel.AStar, panel.Clipped, TileScatter.Of(panel.AStar, panel.Clipped)));
        measurements.Add(Median("panel_b", panel.BStar, panel.Clipped, TileScatter.Of(panel.BStar, panel.Clipped)));
    }

    private static double RimShare(bool[] clipped, int width, int height)
    {
        long rim = 0;
        for (var y = 0; y < height; y++)
        {
            var row = clipped.AsSpan(y * width, width);
            for (var x = 0; x + 1 < width; x++)
            {
                rim += row[x] != row[x + 1] ? 1 : 0;
            }

            if (y + 1 < height)
            {
                var below = clipped.AsSpan((y + 1) * width, width);
                for (var x = 0; x < width; x++)
                {
                    rim += row[x] != below[x] ? 1 : 0;
                }
            }
        }

        return rim / (double)clipped.Length;
    }

    private static Measurement Median(string metric, Plane plane, bool[] clipped, TileScatter scatter)
    {
        var histogram = new ValueHistogram(-130.0f, 130.0f, 2600);
        for (var y = 0; y < plane.Height; y += 2)
        {
            AddRow(plane.Row(y), clipped.AsSpan(y * plane.Width, plane.Width), histogram);
        }

        return histogram.Count == 0
            ? Measurement.Absent(metric, "1", AllClipped)
            : Measurement.Of(metric, histogram.Quantile(0.5), "1", Math.Max(scatter.MedianHalfWidth, CodeStep));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AddRow(ReadOnlySpan<float> row, ReadOnlySpan<bool> clipped, ValueHistogram histogram)
    {
        for (var x = 0; x < row.Length; x += 2)
        {
            if (!clipped[x])
            {
                histogram.Add(row[x]);
            }
        }
    }
}
