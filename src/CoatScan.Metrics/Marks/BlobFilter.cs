using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Marks;

/// <summary>Scale-normalized Laplacian of Gaussian, s^2 (Ixx + Iyy): above 0 on dark blobs, below 0 on bright ones.</summary>
/// <remarks>
/// <para>For a disk of radius r and contrast 1 the response at its center is (r^2 / s^2) exp(-r^2 / (2 s^2)), largest, 2 / e,
/// for s = r / sqrt 2.</para>
/// <para>Source: Lindeberg, Int. J. Computer Vision 30(2), 1998.</para>
/// </remarks>
internal static class BlobFilter
{
    internal static double SigmaOfRadius(double radiusPx) => radiusPx / Math.Sqrt(2.0);

    internal static Plane Apply(Plane source, double sigmaPx, PlaneScope scope)
    {
        var smooth = GaussianFilter.Kernel(sigmaPx);
        var second = GaussianDerivative.Second(sigmaPx);
        var target = scope.RentLike(source);
        var vertical = scope.RentLike(source);
        SeparableFilter.Apply(source, target, second, smooth, KernelParity.Even, KernelParity.Even);
        SeparableFilter.Apply(source, vertical, smooth, second, KernelParity.Even, KernelParity.Even);
        var scale = (float)(sigmaPx * sigmaPx);
        for (var i = 0; i < target.Values.Length; i++)
        {
            target.Values[i] = scale * (target.Values[i] + vertical.Values[i]);
        }

        scope.Return(vertical);
        return target;
    }
}
