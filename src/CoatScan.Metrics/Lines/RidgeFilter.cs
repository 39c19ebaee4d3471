using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Lines;

/// <summary>Scale-normalized curvature across a line: s^2 times the eigenvalue of largest magnitude of the Hessian.</summary>
/// <remarks>
/// <para>Above 0 on a dark line, below 0 on a bright one, in the unit of the plane. For a Gaussian line of depth A and width w
/// it is A s^2 w / (w^2 + s^2)^(3/2) at the center, largest for s = w sqrt 2.</para>
/// <para>Cost: three separable filters and three scratch planes. Deterministic.</para>
/// <para>Source: Lindeberg, Int. J. Computer Vision 30(2), 1998 (scale-normalized derivatives).</para>
/// </remarks>
internal static class RidgeFilter
{
    internal static Plane Apply(Plane source, double sigmaPx, PlaneScope scope)
    {
        var smooth = GaussianFilter.Kernel(sigmaPx);
        var first = GaussianDerivative.First(sigmaPx);
        var second = GaussianDerivative.Second(sigmaPx);
        var xx = scope.RentLike(source);
        var yy = scope.RentLike(source);
        var xy = scope.RentLike(source);
        SeparableFilter.Apply(source, xx, second, smooth, KernelParity.Even, KernelParity.Even);
        SeparableFilter.Apply(source, yy, smooth, second, KernelParity.Even, KernelParity.Even);
        SeparableFilter.Apply(source, xy, first, first, KernelParity.Odd, KernelParity.Odd);
        var scale = (float)(sigmaPx * sigmaPx);
        for (var i = 0; i < xx.Values.Length; i++)
        {
            var middle = 0.5f * (xx.Values[i] + yy.Values[i]);
            var half = 0.5f * (xx.Values[i] - yy.Values[i]);
            var spread = MathF.Sqrt((half * half) + (xy.Values[i] * xy.Values[i]));
            xx.Values[i] = scale * (middle >= 0.0f ? middle + spread : middle - spread);
        }

        scope.Return(yy);
        scope.Return(xy);
        return xx;
    }
}
