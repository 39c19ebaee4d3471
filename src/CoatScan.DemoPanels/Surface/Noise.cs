using System.Buffers;
using System.Numerics;
using System.Runtime.InteropServices;
using Plane = CoatScan.Metrics.Plane;

namespace CoatScan.DemoPanels.Surface;

/// <summary>
/// Smooth random fields: Gaussian lattices interpolated by cubic B-splines. Built plane by plane instead of point by
/// point, because that costs about one nanosecond a pixel and octave group instead of tens.
/// </summary>
internal static class Noise
{
    // A cubic B-spline averages white noise down to 0.479 of its variance along each axis (mean over phase of the
    // sum of squared weights), 0.2296 in two dimensions: the gain that restores unit variance is its inverse root.
    private const float UnitVarianceGain = 2.087f;

    /// <summary>One octave: mean 0, about unit variance, features about two cells wide.</summary>
    public static Plane Octave(PanelRandom random, int width, int height, float cellX, float cellY)
    {
        var plane = new Plane(width, height);
        Add(plane, random, cellX, cellY, 1f);
        return plane;
    }

    /// <summary>Octaves of halving cell size and falling gain, scaled to about unit variance.</summary>
    public static Plane Fractal(
        PanelRandom random, int width, int height, float cellPx, int octaves, float gain = 0.5f, float aspect = 1f)
    {
        var plane = new Plane(width, height);
        var variance = 0f;
        for (var i = 0; i < octaves; i++)
        {
            variance += MathF.Pow(gain, 2 * i);
        }

        var amplitude = 1f / MathF.Sqrt(variance);
        var stretch = MathF.Sqrt(aspect);
        for (var i = 0; i < octaves; i++)
        {
            Add(plane, random, MathF.Max(1f, cellPx * stretch), MathF.Max(1f, cellPx / stretch), amplitude);
            amplitude *= gain;
            cellPx *= 0.5f;
        }

        return plane;
    }

    /// <summary>A smooth random function of one variable, for outlines and wandering lines.</summary>
    public static float[] Line(PanelRandom random, int length, float cellPx, int octaves = 1)
    {
        var plane = Fractal(random, length, 1, cellPx, octaves);
        return plane.Values;
    }

    // Lattice rows are widened to the raster first, each once; then every raster row is a weighted sum of four of them,
    // which the processor does many pixels at a time.
    private static void Add(Plane target, PanelRandom random, float cellX, float cellY, float amplitude)
    {
        var width = target.Width;
        var columns = (int)(width / cellX) + 5;
        var rows = (int)(target.Height / cellY) + 5;
        var lattice = ArrayPool<float>.Shared.Rent(columns * rows);
        random.FillGaussian(lattice.AsSpan(0, columns * rows), UnitVarianceGain * amplitude);
        var weights = ArrayPool<float>.Shared.Rent(width * 4);
        var firsts = ArrayPool<int>.Shared.Rent(width);
        for (var x = 0; x < width; x++)
        {
            var position = x / cellX;
            firsts[x] = (int)position;
            SplineWeights(position - firsts[x], weights.AsSpan(x * 4, 4));
        }

        // Lattice row r lies in slot r mod 4, so that the four rows a raster row needs are always there.
        var wide = ArrayPool<float>.Shared.Rent(width * 4);
        var widened = 0;
        Span<float> vertical = stackalloc float[4];
        for (var y = 0; y < target.Height; y++)
        {
            var position = y / cellY;
            var first = (int)position;
            for (widened = Math.Max(widened, first); widened < first + 4; widened++)
            {
                Widen(
                    lattice.AsSpan(widened * columns, columns), firsts.AsSpan(0, width), weights,
                    wide.AsSpan((widened & 3) * width, width));
            }

            SplineWeights(position - first, vertical);
            AddRows(wide, first, vertical, target.Row(y));
        }

        ArrayPool<float>.Shared.Return(wide);
        ArrayPool<int>.Shared.Return(firsts);
        ArrayPool<float>.Shared.Return(weights);
        ArrayPool<float>.Shared.Return(lattice);
    }

    private static void Widen(ReadOnlySpan<float> lattice, ReadOnlySpan<int> firsts, ReadOnlySpan<float> weights, Span<float> wide)
    {
        var spline = MemoryMarshal.Cast<float, Vector4>(weights);
        for (var x = 0; x < wide.Length; x++)
        {
            wide[x] = Vector4.Dot(new Vector4(lattice.Slice(firsts[x], 4)), spline[x]);
        }
    }

    private static void AddRows(ReadOnlySpan<float> wide, int first, ReadOnlySpan<float> weights, Span<float> row)
    {
        var width = row.Length;
        var a = wide.Slice((first & 3) * width, width);
        var b = wide.Slice(((first + 1) & 3) * width, width);
        var c = wide.Slice(((first + 2) & 3) * width, width);
        var d = wide.Slice(((first + 3) & 3) * width, width);
        float wa = weights[0], wb = weights[1], wc = weights[2], wd = weights[3];
        var wideRow = MemoryMarshal.Cast<float, Vector<float>>(row);
        var wideA = MemoryMarshal.Cast<float, Vector<float>>(a);
        var wideB = MemoryMarshal.Cast<float, Vector<float>>(b);
        var wideC = MemoryMarshal.Cast<float, Vector<float>>(c);
        var wideD = MemoryMarshal.Cast<float, Vector<float>>(d);
        for (var i = 0; i < wideRow.Length; i++)
        {
            wideRow[i] += (wideA[i] * wa) + (wideB[i] * wb) + (wideC[i] * wc) + (wideD[i] * wd);
        }

        for (var x = wideRow.Length * Vector<float>.Count; x < width; x++)
        {
            row[x] += (a[x] * wa) + (b[x] * wb) + (c[x] * wc) + (d[x] * wd);
        }
    }

    private static void SplineWeights(float t, Span<float> weights)
    {
        var u = 1f - t;
        weights[0] = u * u * u / 6f;
        weights[1] = ((3f * t * t * t) - (6f * t * t) + 4f) / 6f;
        weights[2] = ((3f * u * u * u) - (6f * u * u) + 4f) / 6f;
        weights[3] = t * t * t / 6f;
    }
}
