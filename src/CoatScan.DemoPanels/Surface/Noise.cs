using CoatScan.Metrics;

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

    private static void Add(Plane target, PanelRandom random, float cellX, float cellY, float amplitude)
    {
        var width = target.Width;
        var columns = (int)(width / cellX) + 5;
        var rows = (int)(target.Height / cellY) + 5;
        var lattice = new float[columns * rows];
        for (var i = 0; i < lattice.Length; i++)
        {
            lattice[i] = random.Gaussian() * UnitVarianceGain * amplitude;
        }

        var firsts = new int[width];
        var weights = new float[width * 4];
        for (var x = 0; x < width; x++)
        {
            var position = x / cellX;
            firsts[x] = (int)position;
            SplineWeights(position - firsts[x], weights.AsSpan(x * 4, 4));
        }

        Span<float> vertical = stackalloc float[4];
        var blended = new float[columns];
        for (var y = 0; y < target.Height; y++)
        {
            var position = y / cellY;
            var first = (int)position;
            SplineWeights(position - first, vertical);
            for (var c = 0; c < columns; c++)
            {
                var at = (first * columns) + c;
                blended[c] = (lattice[at] * vertical[0]) + (lattice[at + columns] * vertical[1])
                    + (lattice[at + (2 * columns)] * vertical[2]) + (lattice[at + (3 * columns)] * vertical[3]);
            }

            var row = target.Row(y);
            for (var x = 0; x < row.Length; x++)
            {
                var at = firsts[x];
                var w = x * 4;
                row[x] += (blended[at] * weights[w]) + (blended[at + 1] * weights[w + 1])
                    + (blended[at + 2] * weights[w + 2]) + (blended[at + 3] * weights[w + 3]);
            }
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
