using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Texture;

/// <summary>Structure tensor: products of the gradient, smoothed by a Gaussian.</summary>
/// <remarks>
/// <para>Gradients come from the analytic derivative of a Gaussian of 1 px, so that their angle has no grid bias.</para>
/// <para>Empty: a plane without gradient has coherence 0. Cost: five separable filters, five scratch planes.</para>
/// <para>Source: Bigun and Granlund, 1987 (angle 0.5 atan2(2 Jxy, Jxx - Jyy), coherence (l1 - l2) / (l1 + l2)).</para>
/// </remarks>
internal static class StructureTensor
{
    private const double GradientSigmaPx = 1.0;

    internal static TensorReading Measure(Plane source, double windowSigmaPx)
    {
        using var scope = new PlaneScope();
        var smooth = GaussianFilter.Kernel(GradientSigmaPx);
        var first = GaussianDerivative.First(GradientSigmaPx);
        var gx = scope.RentLike(source);
        var gy = scope.RentLike(source);
        SeparableFilter.Apply(source, gx, first, smooth, KernelParity.Odd, KernelParity.Even);
        SeparableFilter.Apply(source, gy, smooth, first, KernelParity.Even, KernelParity.Odd);
        var product = scope.RentLike(source);
        for (var i = 0; i < product.Values.Length; i++)
        {
            var (x, y) = (gx.Values[i], gy.Values[i]);
            product.Values[i] = x * y;
            gx.Values[i] = x * x;
            gy.Values[i] = y * y;
        }

        var xx = scope.RentLike(source);
        GaussianFilter.Apply(gx, xx, windowSigmaPx);
        GaussianFilter.Apply(gy, gx, windowSigmaPx);
        GaussianFilter.Apply(product, gy, windowSigmaPx);
        return Summarize(xx.Values, gx.Values, gy.Values);
    }

    private static TensorReading Summarize(float[] xx, float[] yy, float[] xy)
    {
        var (sumXX, sumYY, sumXY, sumSpread) = (0.0, 0.0, 0.0, 0.0);
        for (var i = 0; i < xx.Length; i++)
        {
            sumXX += xx[i];
            sumYY += yy[i];
            sumXY += xy[i];
            var difference = xx[i] - yy[i];
            sumSpread += MathF.Sqrt((difference * difference) + (4.0f * xy[i] * xy[i]));
        }

        var energy = sumXX + sumYY;
        if (energy <= 1e-12 * xx.Length)
        {
            return new(0.0, 0.0, 0.0);
        }

        var global = Math.Sqrt(((sumXX - sumYY) * (sumXX - sumYY)) + (4.0 * sumXY * sumXY));
        var angle = 0.5 * Math.Atan2(2.0 * sumXY, sumXX - sumYY) * (180.0 / Math.PI);
        return new(sumSpread / energy, global / energy, angle);
    }
}
