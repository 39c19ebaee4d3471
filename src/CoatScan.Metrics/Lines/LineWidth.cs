using CoatScan.Metrics.Uncertainty;

namespace CoatScan.Metrics.Lines;

/// <summary>Width and contrast of lines, from profiles across them.</summary>
/// <param name="WidthPx">Median full width at half contrast, pixels of the plane that is profiled; the blur of the photo is in it.</param>
/// <param name="Contrast">Median of line less surroundings, L*; below 0 the lines are dark.</param>
/// <remarks>
/// <para>Profiles stand across the line every 16 px, at most 400 of them, each the mean of three side by side. Surroundings are the means of
/// both sides at 7 to 10 px, joined by a straight line; the edges are where half of the contrast is reached, between samples by
/// interpolation. A profile whose half contrast is not reached within 7 px on both sides counts no width.</para>
/// <para>Uncertainty: 1.96 x 1.2533 standard deviations (from the median deviation) over the root of the number of profiles, and half
/// a pixel, since a photo does not say where inside a pixel an edge lies; for contrast half an 8-bit step, 0.2 L*,
/// and what a blur of a third of a square pixel (a pixel's own area and half a pixel of lens or coding) takes from the peak of a Gaussian
/// line of that width, 0.92 of the contrast over the width squared.</para>
/// <para>Cost: by the number of profiles. Source: full width at half maximum, common practice.</para>
/// </remarks>
internal sealed record LineWidth(Estimate WidthPx, Estimate Contrast)
{
    private const int EveryPx = 16;
    private const int MostProfiles = 400;
    private const int NormalReachPx = 5;
    private const double ReachPx = 10.0;
    private const double EdgeReachPx = 7.0;
    private const double PixelPx = 0.5;
    private const double HalfCode = 0.2;

    // (1/3) / (2 s^2) with s = width / 2.355.
    private const double PeakLoss = 0.92;

    /// <summary>Profiles a plane along lines; null where no profile can be read.</summary>
    /// <param name="lightness">The plane to profile.</param>
    /// <param name="chains">Lines, in pixels of a plane reduced by the factor.</param>
    /// <param name="factor">Pixels of the plane per pixel of the lines, at least 1.</param>
    internal static LineWidth? Of(Plane lightness, IReadOnlyList<LineChain> chains, double factor)
    {
        var (widths, contrasts) = (new List<double>(), new List<double>());
        var every = Math.Max(EveryPx, chains.Sum(chain => chain.Xs.Length) / MostProfiles);
        foreach (var chain in chains)
        {
            for (var i = Math.Min(every / 2, chain.Xs.Length / 2); i < chain.Xs.Length; i += every)
            {
                if (Profile(lightness, chain, i, factor) is { } profile)
                {
                    Read(profile, factor, widths, contrasts);
                }
            }
        }

        if (widths.Count == 0)
        {
            return null;
        }

        var width = new Estimate(Median(widths), HalfWidth(widths)).Widened(PixelPx);
        var contrast = new Estimate(Median(contrasts), HalfWidth(contrasts)).Widened(HalfCode);
        return new(width, contrast.Widened(PeakLoss * contrast.Value / Math.Max(1.0, width.Value * width.Value)));
    }

    // Half a pixel of the lines a sample, from -10 to +10 px; null where it leaves the plane.
    private static double[]? Profile(Plane plane, LineChain chain, int i, double factor)
    {
        var (from, to) = (Math.Max(0, i - NormalReachPx), Math.Min(chain.Xs.Length - 1, i + NormalReachPx));
        var length = chain.Distance(from, to);
        if (length < NormalReachPx)
        {
            return null;
        }

        var (alongX, alongY) = ((chain.Xs[to] - chain.Xs[from]) / length, (chain.Ys[to] - chain.Ys[from]) / length);
        var samples = new double[(int)(4.0 * ReachPx) + 1];
        for (var k = 0; k < samples.Length; k++)
        {
            var across = (0.5 * k) - ReachPx;
            for (var side = -1; side <= 1; side++)
            {
                var x = chain.Xs[i] - (across * alongY) + (side * alongX);
                var y = chain.Ys[i] + (across * alongX) + (side * alongY);
                if (!TrySample(plane, ((x + 0.5) * factor) - 0.5, ((y + 0.5) * factor) - 0.5, out var value))
                {
                    return null;
                }

                samples[k] += value / 3.0;
            }
        }

        return samples;
    }

    private static bool TrySample(Plane plane, double x, double y, out double value)
    {
        var (column, row) = ((int)Math.Floor(x), (int)Math.Floor(y));
        if (column < 0 || row < 0 || column >= plane.Width - 1 || row >= plane.Height - 1)
        {
            value = 0.0;
            return false;
        }

        var (across, down) = (x - column, y - row);
        var upper = plane[column, row] + (across * (plane[column + 1, row] - plane[column, row]));
        var lower = plane[column, row + 1] + (across * (plane[column + 1, row + 1] - plane[column, row + 1]));
        value = upper + (down * (lower - upper));
        return true;
    }

    private static void Read(double[] samples, double factor, List<double> widths, List<double> contrasts)
    {
        var (middle, ring) = (samples.Length / 2, (int)(2.0 * (ReachPx - EdgeReachPx)) + 1);
        var (low, high) = (Mean(samples.AsSpan(0, ring)), Mean(samples.AsSpan(samples.Length - ring)));
        var rise = (high - low) / (samples.Length - ring);
        var offsets = new double[samples.Length];
        for (var k = 0; k < offsets.Length; k++)
        {
            offsets[k] = samples[k] - (low + (rise * (k - ((ring - 1) / 2.0))));
        }

        // The thinned line lies within a pixel or two of the middle.
        var peak = middle;
        for (var k = middle - 4; k <= middle + 4; k++)
        {
            peak = Math.Abs(offsets[k]) > Math.Abs(offsets[peak]) ? k : peak;
        }

        contrasts.Add(offsets[peak]);
        if (Edge(offsets, peak, -1, ring) is { } start && Edge(offsets, peak, 1, ring) is { } end)
        {
            widths.Add(0.5 * (end - start) * factor);
        }
    }

    private static double? Edge(double[] offsets, int peak, int step, int ring)
    {
        var half = offsets[peak] / 2.0;
        for (var k = peak + step; k >= ring - 1 && k <= offsets.Length - ring; k += step)
        {
            if (offsets[k] / half < 1.0)
            {
                return k - (step * (half - offsets[k]) / (offsets[k - step] - offsets[k]));
            }
        }

        return null;
    }

    private static double Mean(ReadOnlySpan<double> values)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += value;
        }

        return sum / values.Length;
    }

    private static double Median(List<double> values)
    {
        values.Sort();
        return values.Count % 2 == 1
            ? values[values.Count / 2]
            : 0.5 * (values[values.Count / 2] + values[(values.Count / 2) - 1]);
    }

    private static double HalfWidth(List<double> values)
    {
        var median = Median(values);
        var deviation = Median(values.ConvertAll(value => Math.Abs(value - median)));
        return 1.96 * 1.2533 * 1.4826 * deviation / Math.Sqrt(values.Count);
    }
}
