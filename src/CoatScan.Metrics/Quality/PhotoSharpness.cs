using System.Numerics;
using System.Runtime.CompilerServices;
using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Quality;

/// <summary>Blur of a photo's sharpest edges, pixels; independent of contrast and of how many edges there are.</summary>
/// <remarks>
/// <para>Each edge is compared with itself blurred once more: an edge of blur b has a gradient proportional to
/// 1 / sqrt(b^2 + s^2) behind a Gaussian of s, so that two s give b. A soft scene with one sharp mark is a sharp photo,
/// therefore the sharpest fifth counts.</para>
/// <para>Input: CIE L* (any linear rescaling of it gives the same blur). Large planes are sampled in 64 evenly spread
/// patches.</para>
/// <para>Empty: fewer than 60 edge pixels above the noise, or a side under 32 px, gives null: a plane without edges tells
/// nothing about focus.</para>
/// <para>Cost: O(n) up to 1.3 megapixels, constant above. Deterministic.</para>
/// <para>Sources: Elder and Zucker, IEEE PAMI 20(7), 1998 (blur of an edge from its derivative); Zhuo and Sim, Pattern
/// Recognition 44(9), 2011 (ratio of gradients before and after a known blur). Both from memory.</para>
/// </remarks>
public static class PhotoSharpness
{
    /// <summary>Largest blur that the two scales can still tell, pixels.</summary>
    public const double LargestBlurPx = 8.0;

    private const double FineSigmaPx = 1.0;
    private const double CoarseSigmaPx = 2.0;

    // A central difference averages the slope over two pixels: a box of variance 2^2 / 12.
    private const double DifferenceVariance = 1.0 / 3.0;

    private const int PatchSidePx = 144;
    private const int PatchesPerSide = 8;
    private const int MarginPx = 8;
    private const int MinimumEdgePixels = 60;
    private const double SharpestShare = 0.2;

    // Pixels of one edge are not independent; judgment.
    private const double PixelsOfAnEdge = 8.0;

    // What storing at quality 60 to 95 changes, seen in the test of stored photos.
    private const double CodingBlurPx = 0.1;

    // In L* per pixel; the multiple of the median keeps noise and fine texture out.
    private const float MinimumGradient = 0.4f;
    private const float MedianMultiple = 4.0f;

    /// <summary>Measures a lightness plane; null where too few edges stand out.</summary>
    public static SharpnessReading? Measure(Plane lightness)
    {
        ArgumentNullException.ThrowIfNull(lightness);
        if (lightness.Width < 2 * (MarginPx + MarginPx) || lightness.Height < 2 * (MarginPx + MarginPx))
        {
            return null;
        }

        var blurs = new List<float>();
        var patchWidth = Math.Min(PatchSidePx, lightness.Width);
        var patchHeight = Math.Min(PatchSidePx, lightness.Height);
        var scratch = new PatchScratch(patchWidth, patchHeight);
        foreach (var y in Starts(lightness.Height, patchHeight))
        {
            foreach (var x in Starts(lightness.Width, patchWidth))
            {
                CollectPatch(lightness, x, y, scratch, blurs);
            }
        }

        if (blurs.Count < MinimumEdgePixels)
        {
            return null;
        }

        blurs.Sort();
        var rank = SharpestShare * (blurs.Count - 1);
        var spread = 1.96 * Math.Sqrt(SharpestShare * (1.0 - SharpestShare) * blurs.Count * PixelsOfAnEdge);
        var blur = At(rank);
        return new(blur, blurs.Count, Math.Max(Math.Max(At(rank + spread) - blur, blur - At(rank - spread)), CodingBlurPx));

        float At(double place) => blurs[Math.Clamp((int)place, 0, blurs.Count - 1)];
    }

    /// <summary>Blur of an edge from its gradients behind the fine and the coarse Gaussian, pixels, [0, 8].</summary>
    internal static double BlurOfGradients(double fine, double coarse)
    {
        const double fineVariance = (FineSigmaPx * FineSigmaPx) + DifferenceVariance;
        const double coarseVariance = (CoarseSigmaPx * CoarseSigmaPx) + DifferenceVariance;
        var square = fine * fine / Math.Max(coarse * coarse, 1e-12);
        if (square <= 1.0)
        {
            return LargestBlurPx;
        }

        var variance = (coarseVariance - (square * fineVariance)) / (square - 1.0);
        return Math.Clamp(Math.Sqrt(Math.Max(0.0, variance)), 0.0, LargestBlurPx);
    }

    private static IEnumerable<int> Starts(int length, int patch)
    {
        var count = Math.Min(PatchesPerSide, (length + patch - 1 - (2 * MarginPx)) / (patch - (2 * MarginPx)));
        count = Math.Max(count, 1);
        for (var i = 0; i < count; i++)
        {
            yield return count == 1 ? (length - patch) / 2 : (int)((long)i * (length - patch) / (count - 1));
        }
    }

    private static void CollectPatch(Plane lightness, int left, int top, PatchScratch scratch, List<float> blurs)
    {
        for (var y = 0; y < scratch.Patch.Height; y++)
        {
            lightness.Row(top + y).Slice(left, scratch.Patch.Width).CopyTo(scratch.Patch.Row(y));
        }

        GaussianFilter.Apply(scratch.Patch, scratch.Fine, FineSigmaPx);
        GaussianFilter.Apply(scratch.Patch, scratch.Coarse, CoarseSigmaPx);
        FillGradients(scratch);
        var threshold = Math.Max(MinimumGradient, MedianMultiple * Median(scratch));
        for (var y = MarginPx; y < scratch.Patch.Height - MarginPx; y++)
        {
            CollectRow(scratch, y, threshold, blurs);
        }
    }

    // Few pixels are edges, so the many vectors without one are passed over.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void CollectRow(PatchScratch scratch, int y, float threshold, List<float> blurs)
    {
        var row = scratch.Gradient.Row(y);
        var end = row.Length - MarginPx;
        for (var x = MarginPx; x < end;)
        {
            if (x <= end - Vector<float>.Count
                && !Vector.GreaterThanOrEqualAny(new Vector<float>(row[x..]), new Vector<float>(threshold)))
            {
                x += Vector<float>.Count;
                continue;
            }

            for (var stop = Math.Min(x + Vector<float>.Count, end); x < stop; x++)
            {
                if (row[x] >= threshold && IsCrest(scratch, x, y))
                {
                    blurs.Add((float)BlurOfGradients(row[x], Gradient(scratch.Coarse, x, y)));
                }
            }
        }
    }

    private static void FillGradients(PatchScratch scratch)
    {
        for (var y = MarginPx - 1; y <= scratch.Patch.Height - MarginPx; y++)
        {
            FillGradientRow(scratch.Fine, scratch.Gradient, y);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void FillGradientRow(Plane fine, Plane gradient, int y)
    {
        ReadOnlySpan<float> above = fine.Row(y - 1);
        ReadOnlySpan<float> here = fine.Row(y);
        ReadOnlySpan<float> below = fine.Row(y + 1);
        var target = gradient.Row(y);
        var x = MarginPx - 1;
        var end = fine.Width - MarginPx + 1;
        for (; x <= end - Vector<float>.Count; x += Vector<float>.Count)
        {
            var horizontal = 0.5f * (new Vector<float>(here[(x + 1)..]) - new Vector<float>(here[(x - 1)..]));
            var vertical = 0.5f * (new Vector<float>(below[x..]) - new Vector<float>(above[x..]));
            Vector.SquareRoot((horizontal * horizontal) + (vertical * vertical)).CopyTo(target[x..]);
        }

        for (; x < end; x++)
        {
            target[x] = Gradient(fine, x, y);
        }
    }

    // Every fourth pixel of every fourth row is enough for a median.
    private static float Median(PatchScratch scratch)
    {
        scratch.Sample.Clear();
        for (var y = MarginPx; y < scratch.Patch.Height - MarginPx; y += 4)
        {
            for (var x = MarginPx; x < scratch.Patch.Width - MarginPx; x += 4)
            {
                scratch.Sample.Add(scratch.Gradient[x, y]);
            }
        }

        scratch.Sample.Sort();
        return scratch.Sample[scratch.Sample.Count / 2];
    }

    // Largest across the edge, compared along the axis that the gradient is closer to.
    private static bool IsCrest(PatchScratch scratch, int x, int y)
    {
        var horizontal = Math.Abs(scratch.Fine[x + 1, y] - scratch.Fine[x - 1, y]);
        var vertical = Math.Abs(scratch.Fine[x, y + 1] - scratch.Fine[x, y - 1]);
        var here = scratch.Gradient[x, y];
        return horizontal >= vertical
            ? here >= scratch.Gradient[x - 1, y] && here >= scratch.Gradient[x + 1, y]
            : here >= scratch.Gradient[x, y - 1] && here >= scratch.Gradient[x, y + 1];
    }

    private static float Gradient(Plane plane, int x, int y)
    {
        var horizontal = 0.5f * (plane[x + 1, y] - plane[x - 1, y]);
        var vertical = 0.5f * (plane[x, y + 1] - plane[x, y - 1]);
        return MathF.Sqrt((horizontal * horizontal) + (vertical * vertical));
    }

    private sealed class PatchScratch(int width, int height)
    {
        internal Plane Patch { get; } = new(width, height);

        internal Plane Fine { get; } = new(width, height);

        internal Plane Coarse { get; } = new(width, height);

        internal Plane Gradient { get; } = new(width, height);

        internal List<float> Sample { get; } = [];
    }
}
