using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Marks;

/// <summary>Blob filters of many sizes: two scales an octave, each octave on a plane of half the width.</summary>
/// <remarks>
/// <para>Scales are 1.5 and 1.5 sqrt 2 pixels of each plane, so disks of radius 2.1, 3, 4.2, 6 ... px answer most (radius = scale times
/// sqrt 2). The filter is s^2 times the sum of the four neighbors less four times the pixel, on a smoothed plane. That difference
/// smooths by a variance of 1/8 px^2 of its own, which the Gaussian before it leaves out.</para>
/// <para>Between two scales the answer of a disk is at least 93 % of the largest, 2 / e.</para>
/// <para>Cost: O(n) time, about 1.4 planes of scratch. Source: Lindeberg, Int. J. Computer Vision 30(2), 1998.</para>
/// </remarks>
internal static class BlobLadder
{
    internal const double FirstSigmaPx = 1.5;
    internal const double SecondSigmaPx = FirstSigmaPx * 1.4142135623730951;

    // Variance of the second difference, and of the mean of 2 x 2 pixels, in pixels of the finer plane.
    private const double DifferenceVariance = 1.0 / 8.0;
    private const double HalvingVariance = 1.0 / 4.0;
    private const int LeastSidePx = 8;

    /// <summary>All seeds of disks up to a radius, in no order of worth.</summary>
    internal static List<SpotSeed> Seeds(Plane lightness, double largestRadiusPx, PlaneScope scope)
    {
        var seeds = new List<SpotSeed>();
        var source = lightness;
        var hasVariance = 0.0;
        for (var factor = 1; Math.Sqrt(2.0) * FirstSigmaPx * factor <= largestRadiusPx * 1.2; factor *= 2)
        {
            if (Math.Min(source.Width, source.Height) < LeastSidePx)
            {
                break;
            }

            var first = Smooth(source, FirstSigmaPx, ref hasVariance, scope);
            BlobSearch.Collect(first, FirstSigmaPx, factor, seeds);
            var second = Smooth(first, SecondSigmaPx, ref hasVariance, scope);
            BlobSearch.Collect(second, SecondSigmaPx, factor, seeds);
            scope.Return(first);
            var half = Halve(second, scope);
            scope.Return(second);
            if (!ReferenceEquals(source, lightness))
            {
                scope.Return(source);
            }

            source = half;
            hasVariance = (hasVariance + HalvingVariance) / 4.0;
        }

        return seeds;
    }

    /// <summary>Response at every pixel but those of the frame, for one scale.</summary>
    internal static Plane Response(Plane plane, double sigmaPx, PlaneScope scope)
    {
        var variance = 0.0;
        var smooth = Smooth(plane, sigmaPx, ref variance, scope);
        var response = new Plane(plane.Width, plane.Height);
        for (var y = 1; y < plane.Height - 1; y++)
        {
            BlobSearch.FillResponse(smooth, y, (float)(sigmaPx * sigmaPx), response.Row(y));
        }

        return response;
    }

    private static Plane Smooth(Plane source, double sigmaPx, ref double hasVariance, PlaneScope scope)
    {
        var wanted = (sigmaPx * sigmaPx) - DifferenceVariance;
        var target = scope.RentLike(source);
        GaussianFilter.Apply(source, target, Math.Sqrt(wanted - hasVariance));
        hasVariance = wanted;
        return target;
    }

    private static Plane Halve(Plane source, PlaneScope scope)
    {
        var target = scope.Rent(Math.Max(1, source.Width / 2), Math.Max(1, source.Height / 2));
        PixelHalving.Apply(source, target);
        return target;
    }
}
