using System.Numerics;
using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Marks;

/// <summary>Samples a plane around a seed: what the paint is there, and how far the seed's core stands out from it.</summary>
/// <remarks>
/// <para>The paint is sampled on three circles of 24 points from 1.4 to 2 radii; what lies in another spot is left out. Their median, then a
/// plane through those within half of the contrast of it, stands for the paint.</para>
/// <para>A look takes the samples; <see cref="Around"/>, <see cref="WithScatter"/> and <see cref="Across"/> then read them. Seeds come in few sizes,
/// so that the places of a size are worked out once.</para>
/// </remarks>
/// <param name="lightness">CIE L*.</param>
/// <param name="clipped">One flag a pixel that is clipped to white.</param>
/// <param name="covered">One flag a pixel that is no paint: clipped, or in a spot that was chosen.</param>
internal sealed class SpotProbe(Plane lightness, bool[] clipped, bool[] covered)
{
    internal const int Directions = 24;
    private const int Samples = ProbePlaces.Samples;
    private const int LeastSamples = 10;
    private const int MostSizesKept = 64;
    private const int StepPlaces = 2;
    private const float StepsOverReach = 8.0f;
    private const double LeastStep = 3.0;
    private const double MostLeftOfStep = 0.04;
    private const double MostAstray = 0.15;
    private const float LongestOverMedian = 1.6f;

    private static readonly float[] StepWidthsPx = [0.7f, 2.0f, 5.0f];

    internal static readonly (float X, float Y)[] Units = MakeUnits();

    private readonly Dictionary<float, ProbePlaces> _placesOfSize = [];
    private readonly ShortRanks _ranks = new(Samples);
    private readonly float[] _values = new float[ProbePlaces.PaddedSamples];
    private readonly float[] _residuals = new float[Samples];
    private readonly float[] _along = new float[ProbePlaces.PaddedSamples];
    private readonly double[] _deviations = new double[ProbePlaces.PaddedSamples];
    private readonly float[] _sorted = new float[Directions];
    private readonly float[] _rim = new float[Directions];
    private readonly float[] _seenXs = new float[ProbePlaces.PaddedSamples];
    private readonly float[] _seenYs = new float[ProbePlaces.PaddedSamples];

    // The samples of the last look, padded with NaN, where they were taken, and what stands at a tenth, the half and nine tenths of them.
    private SpotSeed _seed;
    private int _count;
    private float[] _xs = [];
    private float[] _ys = [];
    private (float Low, float Median, float High) _quantiles;

    internal Plane Lightness => lightness;

    internal bool IsClipped(SpotSeed seed) => clipped[(seed.Y * lightness.Width) + seed.X];

    /// <summary>Samples the paint around a seed; the mean of its core, which is the disk of half the radius.</summary>
    internal float Look(SpotSeed seed)
    {
        var places = PlacesOf(seed.RadiusPx);
        (_seed, _count) = (seed, 0);
        var isInside = seed.X >= places.ReachPx && seed.Y >= places.ReachPx
            && seed.X + places.ReachPx < lightness.Width && seed.Y + places.ReachPx < lightness.Height;
        _count = isInside ? SampleInside(places, (seed.Y * lightness.Width) + seed.X) : SampleAtFrame(places);
        _values.AsSpan(_count).Fill(float.NaN);
        if (_count >= LeastSamples)
        {
            _ranks.Rank(_values.AsSpan(0, _count));
            _quantiles = (_ranks.At(_count / 10), _ranks.At(_count / 2), _ranks.At((9 * _count / 10) - 1));
        }

        return isInside ? CoreInside(places, (seed.Y * lightness.Width) + seed.X) : CoreAtFrame(places);
    }

    /// <summary>The paint around the seed of the last look, its scatter left out; null where too little of it is seen.</summary>
    internal Surround? Around(float core) => _count < LeastSamples
        ? null
        : Fit(_quantiles.Median, 0.5f * Math.Abs(core - _quantiles.Median), Math.Sign(core - _quantiles.Median));

    /// <summary>The same with the scatter of the samples.</summary>
    /// <remarks>Of all samples: texture as strong as the spot itself must not drop out as not paint.</remarks>
    internal Surround WithScatter(Surround around)
    {
        for (var i = 0; i < _count; i++)
        {
            _residuals[i] = _values[i] - around.Level - (around.SlopeX * _xs[i]) - (around.SlopeY * _ys[i]);
        }

        return around with { Scatter = ScatterOfResiduals() };
    }

    /// <summary>The paint around the seed of the last look if the edge of a reflection runs across; null otherwise.</summary>
    /// <remarks>
    /// The samples are split at the middle of their range; the rise points from the middle of the dark ones to that of the light ones. Its
    /// place and width are those of a few that leave the least squares, its foot and height their closed form. It is an edge if its height is 3 L* or more and
    /// what it leaves is under a fifth of the scatter.
    /// </remarks>
    internal Surround? Across() =>
        _count >= 2 * LeastSamples && FitStep() is { } around && LeftOf(around) <= MostLeftOfStep ? around : null;

    /// <summary>Mean difference of the core to the paint on each side of an edge, L*; one number on both if the edge leaves the core aside.</summary>
    internal (float Dark, float Light) SidesOf(SpotSeed seed, Surround around)
    {
        var reach = (int)(0.7f * seed.RadiusPx);
        Span<double> sums = [0.0, 0.0];
        Span<int> counts = [0, 0];
        for (var dy = -reach; dy <= reach; dy++)
        {
            for (var dx = -reach; dx <= reach; dx++)
            {
                var (x, y) = (seed.X + dx, seed.Y + dy);
                if ((dx * dx) + (dy * dy) <= reach * reach && IsInside(x, y))
                {
                    var side = around.Step!.Share(dx, dy) > 0.5f ? 1 : 0;
                    sums[side] += lightness[x, y] - around.At(dx, dy);
                    counts[side]++;
                }
            }
        }

        var all = counts[0] + counts[1];
        var (dark, light) = ((float)(sums[0] / Math.Max(1, counts[0])), (float)(sums[1] / Math.Max(1, counts[1])));
        return 8 * counts[0] < all ? (light, light) : 8 * counts[1] < all ? (dark, dark) : (dark, light);
    }

    /// <summary>The seed moved to the middle of its rim and given the rim's radius; the rim is where half of the contrast is left.</summary>
    /// <remarks>
    /// Rays in 24 directions: the radius is the median of those that leave the spot within 2 radii, the center the mean of opposite
    /// ones, but for those that run on into a spot that touches. Roundness is a short ray over a long one (10th and 90th percentile): small where the seed lies in a waist between two. The scales of the blob filters are coarse, so that neighbors could not be told from the rim without this.
    /// </remarks>
    internal (SpotSeed Seed, float Roundness) Refine(SpotSeed seed, Surround around, float contrast)
    {
        var count = 0;
        for (var i = 0; i < Directions; i++)
        {
            _rim[i] = Rim(seed, around, 0.5f * contrast, Units[i]);
            if (!float.IsNaN(_rim[i]))
            {
                _sorted[count++] = _rim[i];
            }
        }

        if (2 * count < Directions)
        {
            return (seed, 0.0f);
        }

        Array.Sort(_sorted, 0, count);
        var longest = LongestOverMedian * _sorted[count / 2];
        var (shiftX, shiftY, pairs) = (0.0f, 0.0f, 0);
        for (var i = 0; i < Directions / 2; i++)
        {
            // NaN is not at most the longest.
            var half = 0.5f * (_rim[i] - _rim[i + (Directions / 2)]);
            if (Math.Max(_rim[i], _rim[i + (Directions / 2)]) <= longest)
            {
                shiftX += half * Units[i].X;
                shiftY += half * Units[i].Y;
                pairs++;
            }
        }

        // Shifts along all directions of a half circle add up to half of their number times the shift of the center.
        var scale = pairs < Directions / 4 ? 0.0f : 2.0f / pairs;
        var (x, y) = (seed.X + (int)MathF.Round(scale * shiftX), seed.Y + (int)MathF.Round(scale * shiftY));
        var refined = IsInside(x, y) ? seed with { X = x, Y = y, RadiusPx = Math.Max(1.0f, _sorted[count / 2]) } : seed;
        return (refined, _sorted[count / 10] / _sorted[Math.Max(0, (9 * count / 10) - 1)]);
    }

    private float Rim(SpotSeed seed, Surround around, float half, (float X, float Y) unit)
    {
        var step = Math.Max(0.5f, seed.RadiusPx / 16.0f);
        var end = (2.0f * seed.RadiusPx) + 3.0f;
        for (var radius = step; radius <= end; radius += step)
        {
            var (dx, dy) = ((int)MathF.Round(radius * unit.X), (int)MathF.Round(radius * unit.Y));
            if (!IsInside(seed.X + dx, seed.Y + dy))
            {
                return float.NaN;
            }

            if (Math.Sign(half) * (lightness[seed.X + dx, seed.Y + dy] - around.At(dx, dy) - half) < 0.0f)
            {
                return radius - (0.5f * step);
            }
        }

        return float.NaN;
    }

    private static (float X, float Y)[] MakeUnits()
    {
        var units = new (float X, float Y)[Directions];
        for (var i = 0; i < Directions; i++)
        {
            var (sine, cosine) = Math.SinCos(2.0 * Math.PI * (i + 0.5) / Directions);
            units[i] = ((float)cosine, (float)sine);
        }

        return units;
    }

    private bool IsInside(int x, int y) => (uint)x < (uint)lightness.Width && (uint)y < (uint)lightness.Height;

    private ProbePlaces PlacesOf(float radiusPx)
    {
        if (!_placesOfSize.TryGetValue(radiusPx, out var places))
        {
            places = new ProbePlaces(radiusPx, lightness.Width);
            if (_placesOfSize.Count < MostSizesKept)
            {
                _placesOfSize.Add(radiusPx, places);
            }
        }

        return places;
    }

    // Most seeds see all of their places.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private int SampleInside(ProbePlaces places, int center)
    {
        // All places lie inside of the plane.
        var (offsets, hidden, samples) = (places.Offsets, covered, _values);
        ref var middle = ref lightness.Values[center];
        ref var isMiddleHidden = ref hidden[center];
        var isHidden = false;
        for (var i = 0; i < offsets.Length; i++)
        {
            isHidden |= Unsafe.Add(ref isMiddleHidden, offsets[i]);
            samples[i] = Unsafe.Add(ref middle, offsets[i]);
        }

        (_xs, _ys) = (places.Xs, places.Ys);
        if (!isHidden)
        {
            return offsets.Length;
        }

        var count = 0;
        for (var i = 0; i < offsets.Length; i++)
        {
            _seenXs[count] = places.Xs[i];
            _seenYs[count] = places.Ys[i];
            samples[count] = samples[i];
            count += hidden[center + offsets[i]] ? 0 : 1;
        }

        (_xs, _ys) = (_seenXs, _seenYs);
        return count;
    }

    private int SampleAtFrame(ProbePlaces places)
    {
        var count = 0;
        foreach (var (dx, dy) in places.Places)
        {
            var (x, y) = (_seed.X + dx, _seed.Y + dy);
            if (IsInside(x, y) && !covered[(y * lightness.Width) + x])
            {
                _values[count] = lightness[x, y];
                (_seenXs[count], _seenYs[count]) = (dx, dy);
                count++;
            }
        }

        (_xs, _ys) = (_seenXs, _seenYs);
        return count;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private float CoreInside(ProbePlaces places, int center)
    {
        var (sum, values) = (0.0, lightness.Values);
        foreach (var offset in places.CoreOffsets)
        {
            sum += values[center + offset];
        }

        return (float)(sum / places.CoreOffsets.Length);
    }

    private float CoreAtFrame(ProbePlaces places)
    {
        var (sum, count) = (0.0, 0);
        foreach (var (dx, dy) in places.Core)
        {
            var (x, y) = (_seed.X + dx, _seed.Y + dy);
            if (IsInside(x, y))
            {
                sum += lightness[x, y];
                count++;
            }
        }

        return (float)(sum / count);
    }

    // Least squares over the samples that are paint; the closed form of three normal equations about the samples' mean. Sums of places are
    // whole numbers, exact in single precision.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private Surround Fit(float median, float reach, int sign)
    {
        var (paint, closed) = (Vector<int>.Zero, Vector<int>.Zero);
        var (sumsX, sumsY, sumsXX, sumsXY, sumsYY) = (
            Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero);
        var (sumsV, sumsXV, sumsYV) = (Vector<double>.Zero, Vector<double>.Zero, Vector<double>.Zero);
        for (var i = 0; i < _count; i += Vector<float>.Count)
        {
            var (value, x, y) = (new Vector<float>(_values, i), new Vector<float>(_xs, i), new Vector<float>(_ys, i));
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

        var open = 1.0f - ((float)Vector.Sum(closed) / _count);
        double n = Vector.Sum(paint);
        if (n < LeastSamples)
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

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (float X, float Y, float PlacePx)? Direction()
    {
        var (low, high) = (_quantiles.Low, _quantiles.High);
        if (high - low < LeastStep)
        {
            return null;
        }

        // Padding is neither light nor dark.
        var middle = 0.5f * (low + high);
        var (darks, lights) = (Vector<int>.Zero, Vector<int>.Zero);
        var (darksX, darksY, lightsX, lightsY) = (Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero, Vector<float>.Zero);
        for (var i = 0; i < _count; i += Vector<float>.Count)
        {
            var (value, x, y) = (new Vector<float>(_values, i), new Vector<float>(_xs, i), new Vector<float>(_ys, i));
            var (isDark, isLight) = (Vector.LessThan(value, new Vector<float>(middle)), Vector.GreaterThanOrEqual(value, new Vector<float>(middle)));
            darks -= isDark;
            lights -= isLight;
            darksX += Vector.ConditionalSelect(isDark, x, Vector<float>.Zero);
            darksY += Vector.ConditionalSelect(isDark, y, Vector<float>.Zero);
            lightsX += Vector.ConditionalSelect(isLight, x, Vector<float>.Zero);
            lightsY += Vector.ConditionalSelect(isLight, y, Vector<float>.Zero);
        }

        if (Math.Min(Vector.Sum(darks), Vector.Sum(lights)) < LeastSamples)
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
        return Astray(middle, unitX, unitY, line) <= MostAstray * _count ? (unitX, unitY, line) : null;
    }

    private int Astray(float middle, float unitX, float unitY, float line)
    {
        var astray = Vector<int>.Zero;
        for (var i = 0; i < _count; i += Vector<float>.Count)
        {
            var (value, x, y) = (new Vector<float>(_values, i), new Vector<float>(_xs, i), new Vector<float>(_ys, i));
            var isBeyond = Vector.GreaterThanOrEqual((unitX * x) + (unitY * y), new Vector<float>(line));
            astray -= Vector.ConditionalSelect(
                isBeyond,
                Vector.LessThan(value, new Vector<float>(middle)),
                Vector.GreaterThanOrEqual(value, new Vector<float>(middle)));
        }

        return Vector.Sum(astray);
    }

    private Surround? FitStep()
    {
        if (Direction() is not var (unitX, unitY, middle))
        {
            return null;
        }

        var (count, outer) = (_count, (2.0f * _seed.RadiusPx) + 3.0f);
        var mean = Mean();
        var squaresOfValues = 0.0;
        for (var i = 0; i < count; i++)
        {
            _along[i] = (unitX * _xs[i]) + (unitY * _ys[i]);
            _deviations[i] = _values[i] - mean;
            squaresOfValues += _deviations[i] * _deviations[i];
        }

        // Padding lies so far on the dark side that it has no share of the rise.
        _along.AsSpan(count).Fill(float.NegativeInfinity);
        _deviations.AsSpan(count).Clear();
        var (best, least, foot) = ((ReflectionStep?)null, double.MaxValue, 0.0f);
        foreach (var width in StepWidthsPx)
        {
            for (var place = -StepPlaces; place <= StepPlaces; place++)
            {
                var placePx = middle + (place * outer / StepsOverReach);
                var (sum, squares, products) = SumsOf(placePx, width);
                var scatter = squares - (sum * sum / count);
                var height = scatter > 0.0 ? products / scatter : 0.0;
                var left = squaresOfValues - (height * products);
                if (height >= LeastStep && left < least)
                {
                    (best, least) = (new ReflectionStep((float)height, unitX, unitY, placePx, width), left);
                    foot = (float)(mean - (height * sum / count));
                }
            }
        }

        if (best is null)
        {
            return null;
        }

        var around = new Surround(foot, 0.0f, 0.0f, 0.0f, 1.0f) { Step = best };
        for (var i = 0; i < count; i++)
        {
            _residuals[i] = _values[i] - around.At(_xs[i], _ys[i]);
        }

        return around with { Scatter = ScatterOfResiduals() };
    }

    // Of the shares of the rise at the samples, of their squares, and of their products with the deviations.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (double Shares, double Squares, double Products) SumsOf(float placePx, float widthPx)
    {
        var (place, width) = (new Vector<float>(placePx), new Vector<float>(widthPx));
        var (sums, squares, products) = (Vector<double>.Zero, Vector<double>.Zero, Vector<double>.Zero);
        for (var i = 0; i < _count; i += Vector<float>.Count)
        {
            var share = Vector<float>.One / (Vector<float>.One + Vector.Exp((place - new Vector<float>(_along, i)) / width));
            Vector.Widen(share, out var low, out var high);
            sums += low + high;
            squares += (low * low) + (high * high);
            products += (low * new Vector<double>(_deviations, i)) + (high * new Vector<double>(_deviations, i + Vector<double>.Count));
        }

        return (Vector.Sum(sums), Vector.Sum(squares), Vector.Sum(products));
    }

    private double Mean()
    {
        var sum = 0.0;
        for (var i = 0; i < _count; i++)
        {
            sum += _values[i];
        }

        return sum / _count;
    }

    // Share of the samples' scatter that a fit leaves, squares.
    private double LeftOf(Surround around)
    {
        var (mean, left, total) = (Mean(), 0.0, 0.0);
        for (var i = 0; i < _count; i++)
        {
            var residual = _values[i] - around.At(_xs[i], _ys[i]);
            left += residual * residual;
            total += (_values[i] - mean) * (_values[i] - mean);
        }

        return total > 0.0 ? left / total : 1.0;
    }

    private float ScatterOfResiduals()
    {
        _ranks.Rank(_residuals.AsSpan(0, _count));
        return 0.7413f * (_ranks.At(3 * _count / 4) - _ranks.At(_count / 4));
    }
}
