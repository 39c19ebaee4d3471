using System.Numerics;
using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Marks;

/// <summary>The edge of a reflection through the samples around a seed: a rise from one lightness to another along one direction.</summary>
/// <remarks>
/// The samples are split at the middle of their range; the rise points from the middle of the dark ones to that of the light ones. Its
/// place and width are those of a few that leave the least squares, its foot and height their closed form.
/// </remarks>
/// <param name="samples">The samples; each fit is through those of the last look.</param>
internal sealed class StepFit(SpotSamples samples)
{
    private const int Places = 2;
    private const float PlacesOverReach = 8.0f;
    private const double LeastHeight = 3.0;
    private const double MostAstray = 0.15;

    private static readonly float[] WidthsPx = [0.7f, 2.0f, 5.0f];

    private readonly float[] _along = new float[ProbePlaces.PaddedSamples];
    private readonly double[] _deviations = new double[ProbePlaces.PaddedSamples];

    /// <summary>The edge, its scatter left out; null where none of 3 L* or more runs across.</summary>
    internal Surround? Fit()
    {
        if (Direction() is not var (unitX, unitY, middle))
        {
            return null;
        }

        var (count, values, xs, ys) = (samples.Count, samples.Values, samples.Xs, samples.Ys);
        var outer = (2.0f * samples.Seed.RadiusPx) + 3.0f;
        var mean = samples.Mean();
        var squaresOfValues = 0.0;
        for (var i = 0; i < count; i++)
        {
            _along[i] = (unitX * xs[i]) + (unitY * ys[i]);
            _deviations[i] = values[i] - mean;
            squaresOfValues += _deviations[i] * _deviations[i];
        }

        // Padding lies so far on the dark side that it has no share of the rise.
        _along.AsSpan(count).Fill(float.NegativeInfinity);
        _deviations.AsSpan(count).Clear();
        var (best, least, foot) = ((ReflectionStep?)null, double.MaxValue, 0.0f);
        foreach (var width in WidthsPx)
        {
            for (var place = -Places; place <= Places; place++)
            {
                var placePx = middle + (place * outer / PlacesOverReach);
                var (sum, squares, products) = SumsOf(placePx, width);
                var scatter = squares - (sum * sum / count);
                var height = scatter > 0.0 ? products / scatter : 0.0;
                var left = squaresOfValues - (height * products);
                if (height >= LeastHeight && left < least)
                {
                    (best, least) = (new ReflectionStep((float)height, unitX, unitY, placePx, width), left);
                    foot = (float)(mean - (height * sum / count));
                }
            }
        }

        return best is null ? null : new Surround(foot, 0.0f, 0.0f, 0.0f, 1.0f) { Step = best };
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (float X, float Y, float PlacePx)? Direction()
    {
        var (low, high) = (samples.Quantiles.Low, samples.Quantiles.High);
        if (high - low < LeastHeight)
        {
            return null;
        }

        var (count, values, xs, ys) = (samples.Count, samples.Values, samples.Xs, samples.Ys);

        // Padding is neither light nor dark.
        var middle = 0.5f * (low + high);
        var (darks, lights) = (Vector<int>.Zero, Vector<int>.Zero);
        var (darksX, darksY, lightsX, lightsY) = (Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero);
        for (var i = 0; i < count; i += Vector<float>.Count)
        {
            var (value, x, y) = (new Vector<float>(values, i), new Vector<float>(xs, i), new Vector<float>(ys, i));
            var (isDark, isLight) = (Vector.LessThan(value, new Vector<float>(middle)), Vector.GreaterThanOrEqual(value, new Vector<float>(middle)));
            darks -= isDark;
            lights -= isLight;
            darksX += Vector.ConditionalSelect(isDark, x, Vector<float>.Zero);
            darksY += Vector.ConditionalSelect(isDark, y, Vector<float>.Zero);
            lightsX += Vector.ConditionalSelect(isLight, x, Vector<float>.Zero);
            lightsY += Vector.ConditionalSelect(isLight, y, Vector<float>.Zero);
        }

        if (Math.Min(Vector.Sum(darks), Vector.Sum(lights)) < SpotSamples.Least)
        {
            return null;
        }

        var (darkX, darkY) = (Vector.Sum(darksX) / Vector.Sum(darks), Vector.Sum(darksY) / Vector.Sum(darks));
        var (lightX, lightY) = (Vector.Sum(lightsX) / Vector.Sum(lights), Vector.Sum(lightsY) / Vector.Sum(lights));
        var (rightward, downward) = (lightX - darkX, lightY - darkY);
        var length = MathF.Sqrt((rightward * rightward) + (downward * downward));
        if (length <= 0.0f)
        {
            return null;
        }

        // Most seeds lie at no edge: few samples then lie on their own side of the line between both middles.
        var (unitX, unitY) = (rightward / length, downward / length);
        var line = 0.5f * ((unitX * (lightX + darkX)) + (unitY * (lightY + darkY)));
        return Astray(middle, unitX, unitY, line) <= MostAstray * count ? (unitX, unitY, line) : null;
    }

    private int Astray(float middle, float unitX, float unitY, float line)
    {
        var (count, values, xs, ys) = (samples.Count, samples.Values, samples.Xs, samples.Ys);
        var astray = Vector<int>.Zero;
        for (var i = 0; i < count; i += Vector<float>.Count)
        {
            var (value, x, y) = (new Vector<float>(values, i), new Vector<float>(xs, i), new Vector<float>(ys, i));
            var isBeyond = Vector.GreaterThanOrEqual((unitX * x) + (unitY * y), new Vector<float>(line));
            astray -= Vector.ConditionalSelect(
                isBeyond,
                Vector.LessThan(value, new Vector<float>(middle)),
                Vector.GreaterThanOrEqual(value, new Vector<float>(middle)));
        }

        return Vector.Sum(astray);
    }

    // Of the shares of the rise at the samples, of their squares, and of their products with the deviations.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (double Shares, double Squares, double Products) SumsOf(float placePx, float widthPx)
    {
        var count = samples.Count;
        var (place, width) = (new Vector<float>(placePx), new Vector<float>(widthPx));
        var (sums, squares, products) = (Vector<double>.Zero, Vector<double>.Zero, Vector<double>.Zero);
        for (var i = 0; i < count; i += Vector<float>.Count)
        {
            var share = Vector<float>.One / (Vector<float>.One + Vector.Exp((place - new Vector<float>(_along, i)) / width));
            Vector.Widen(share, out var low, out var high);
            sums += low + high;
            squares += (low * low) + (high * high);
            products += (low * new Vector<double>(_deviations, i)) + (high * new Vector<double>(_deviations, i + Vector<double>.Count));
        }

        return (Vector.Sum(sums), Vector.Sum(squares), Vector.Sum(products));
    }
}
