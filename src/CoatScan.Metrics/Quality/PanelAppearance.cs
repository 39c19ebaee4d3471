using CoatScan.Findings;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Marks;
using CoatScan.Metrics.Zones;

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
/// normal values, joined with what a decoder's rounding to whole codes moves a flat color by, <see cref="CodingError"/>); of the clipped
/// share one pixel along its rims; of the sharpness the rank of its quantile.</para>
/// </remarks>
internal static class PanelAppearance
{
    private static readonly string[] ColorNames = ["panel_l", "panel_a", "panel_b"];

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
        AddColor(panel, lightness, measurements);
    }

    private static void AddColor(PanelPlanes panel, TileScatter lightness, List<Measurement> measurements)
    {
        if (Median(panel.Lightness, panel.Clipped) is not { } l
            || Median(panel.AStar, panel.Clipped) is not { } a || Median(panel.BStar, panel.Clipped) is not { } b)
        {
            measurements.AddRange(ColorNames.Select(name => Measurement.Absent(name, "1", AllClipped)));
            return;
        }

        var rounded = CodingError.HalfWidths(new LabColor(l, a, b), StoredColor.Unknown);
        Add(ColorNames[0], l, lightness, rounded.L);
        Add(ColorNames[1], a, TileScatter.Of(panel.AStar, panel.Clipped), rounded.A);
        Add(ColorNames[2], b, TileScatter.Of(panel.BStar, panel.Clipped), rounded.B);

        void Add(string metric, double value, TileScatter scatter, double byRounding) =>
            measurements.Add(Measurement.Of(metric, value, "1", HalfWidth.Join(scatter.MedianHalfWidth, byRounding)));
    }

    private static double RimShare(bool[] clipped, int width, int height)
    {
        long rim = 0;
        var isAboveMixed = false;
        for (var y = 0; y < height; y++)
        {
            // Most rows are as free of clipping as the one above.
            var row = clipped.AsSpan(y * width, width);
            var isMixed = row.Contains(true);
            rim += isMixed ? Unlike(row[1..], row[..^1]) : 0;
            rim += y > 0 && (isMixed || isAboveMixed) ? Unlike(row, clipped.AsSpan((y - 1) * width, width)) : 0;
            isAboveMixed = isMixed;
        }

        return rim / (double)clipped.Length;
    }

    private static int Unlike(ReadOnlySpan<bool> one, ReadOnlySpan<bool> other)
    {
        var count = 0;
        for (var i = 0; i < one.Length; i++)
        {
            count += one[i] != other[i] ? 1 : 0;
        }

        return count;
    }

    private static double? Median(Plane plane, bool[] clipped)
    {
        var histogram = new ValueHistogram(-130.0f, 130.0f, 2600);
        for (var y = 0; y < plane.Height; y += 2)
        {
            histogram.AddEverySecond(plane.Row(y), clipped.AsSpan(y * plane.Width, plane.Width));
        }

        return histogram.Count == 0 ? null : histogram.Quantile(0.5);
    }
}
