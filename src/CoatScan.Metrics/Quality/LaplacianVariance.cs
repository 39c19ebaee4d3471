namespace CoatScan.Metrics.Quality;

/// <summary>Variance of the four-neighbor Laplacian, 0 or more, in the squared unit of the plane.</summary>
/// <remarks>
/// <para>Kernel 0 1 0 / 1 -4 1 / 0 1 0, population variance over the pixels that have four neighbors.</para>
/// <para>It depends on content, contrast and resolution: compare only planes of one size, normalized by their contrast. For a
/// photo's focus use <see cref="PhotoSharpness"/>.</para>
/// <para>Empty: a side under 3 px gives 0. Cost: O(n) time, no scratch plane.</para>
/// <para>Source: Pech-Pacheco et al., 2000; compared in Pertuz et al., Pattern Recognition 46(5), 2013,
/// doi 10.1016/j.patcog.2012.11.011.</para>
/// </remarks>
public static class LaplacianVariance
{
    /// <summary>Measures a plane.</summary>
    public static double Measure(Plane plane)
    {
        ArgumentNullException.ThrowIfNull(plane);
        if (plane.Width < 3 || plane.Height < 3)
        {
            return 0.0;
        }

        var sum = 0.0;
        var squares = 0.0;
        for (var y = 1; y < plane.Height - 1; y++)
        {
            var above = plane.Row(y - 1);
            var here = plane.Row(y);
            var below = plane.Row(y + 1);
            for (var x = 1; x < here.Length - 1; x++)
            {
                double value = above[x] + below[x] + here[x - 1] + here[x + 1] - (4.0f * here[x]);
                sum += value;
                squares += value * value;
            }
        }

        double count = (plane.Width - 2) * (plane.Height - 2);
        var mean = sum / count;
        return Math.Max(0.0, (squares / count) - (mean * mean));
    }
}
