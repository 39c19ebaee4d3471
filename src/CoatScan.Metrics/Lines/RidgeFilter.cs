using System.Numerics;
using System.Runtime.CompilerServices;
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
        ToCurvature(xx.Values, yy.Values, xy.Values, (float)(sigmaPx * sigmaPx));
        scope.Return(yy);
        scope.Return(xy);
        return xx;
    }

    // Into xx.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void ToCurvature(float[] xx, float[] yy, float[] xy, float scale)
    {
        var i = 0;
        for (; i <= xx.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            var (x, y, twist) = (new Vector<float>(xx, i), new Vector<float>(yy, i), new Vector<float>(xy, i));
            var middle = 0.5f * (x + y);
            var half = 0.5f * (x - y);
            var spread = Vector.SquareRoot((half * half) + (twist * twist));
            var isDark = Vector.GreaterThanOrEqual(middle, Vector<float>.Zero);
            (scale * Vector.ConditionalSelect(isDark, middle + spread, middle - spread)).CopyTo(xx, i);
        }

        for (; i < xx.Length; i++)
        {
            var middle = 0.5f * (xx[i] + yy[i]);
            var half = 0.5f * (xx[i] - yy[i]);
            var spread = MathF.Sqrt((half * half) + (xy[i] * xy[i]));
            xx[i] = scale * (middle >= 0.0f ? middle + spread : middle - spread);
        }
    }
}
