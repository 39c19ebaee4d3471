using System.Numerics;
using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Marks;

/// <summary>The plane through the samples around a seed that are paint.</summary>
/// <remarks>
/// Least squares; the closed form of three normal equations about the samples' mean. Sums of places are whole numbers, exact in single precision.
/// </remarks>
internal static class PlaneFit
{
    /// <summary>The plane, its scatter left out; flat where too few samples are paint.</summary>
    /// <param name="samples">The samples around a seed.</param>
    /// <param name="median">Their median, L*.</param>
    /// <param name="reach">How far from it paint may be, L*.</param>
    /// <param name="sign">On which side of it the seed's core is: 1 lighter, -1 darker, 0 neither.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal static Surround Of(SpotSamples samples, float median, float reach, int sign)
    {
        var (count, values, xs, ys) = (samples.Count, samples.Values, samples.Xs, samples.Ys);
        var (paint, closed) = (Vector<int>.Zero, Vector<int>.Zero);
        var (sumsX, sumsY, sumsXX, sumsXY, sumsYY) = (
            Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero);
        var (sumsV, sumsXV, sumsYV) = (Vector<double>.Zero, Vector<double>.Zero, Vector<double>.Zero);
        for (var i = 0; i < count; i += Vector<float>.Count)
        {
            var (value, x, y) = (new Vector<float>(values, i), new Vector<float>(xs, i), new Vector<float>(ys, i));
            var off = value - new Vector<float>(median);
            closed -= Vector.GreaterThan(sign * off, new Vector<float>(reach));
            var isPaint = Vector.LessThanOrEqual(Vector.Abs(off), new Vector<float>(reach));
            paint -= isPaint;
            value = Vector.ConditionalSelect(isPaint, value, Vector<float>.Zero);
            x = Vector.ConditionalSelect(isPaint, x, Vector<float>.Zero);
            y = Vector.ConditionalSelect(isPaint, y, Vector<float>.Zero);
            sumsX += x;
            sumsY += y;
            sumsXX += x * x;
            sumsXY += x * y;
            sumsYY += y * y;
            Vector.Widen(value, out var lowV, out var highV);
            Vector.Widen(x, out var lowX, out var highX);
            Vector.Widen(y, out var lowY, out var highY);
            sumsV += lowV + highV;
            sumsXV += (lowX * lowV) + (highX * highV);
            sumsYV += (lowY * lowV) + (highY * highV);
        }

        var open = 1.0f - ((float)Vector.Sum(closed) / count);
        double n = Vector.Sum(paint);
        if (n < SpotSamples.Least)
        {
            return new(median, 0.0f, 0.0f, 0.0f, open);
        }

        var (meanX, meanY, meanV) = (Vector.Sum(sumsX) / n, Vector.Sum(sumsY) / n, Vector.Sum(sumsV) / n);
        var (xx, xy, yy) = (
            Vector.Sum(sumsXX) - (n * meanX * meanX), Vector.Sum(sumsXY) - (n * meanX * meanY), Vector.Sum(sumsYY) - (n * meanY * meanY));
        var (xv, yv) = (Vector.Sum(sumsXV) - (n * meanX * meanV), Vector.Sum(sumsYV) - (n * meanY * meanV));

        // Samples on one side alone do not tell a slope.
        var determinant = (xx * yy) - (xy * xy);
        var (slopeX, slopeY) = determinant > 0.1 * (xx + yy) * (xx + yy) / 4.0
            ? (((xv * yy) - (yv * xy)) / determinant, ((yv * xx) - (xv * xy)) / determinant)
            : (0.0, 0.0);
        var level = (float)(meanV - (slopeX * meanX) - (slopeY * meanY));
        return new(level, (float)slopeX, (float)slopeY, 0.0f, open);
    }
}
