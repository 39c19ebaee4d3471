namespace CoatScan.Metrics.Marks;

/// <summary>Samples a plane around a seed: what the paint is there, and how far the seed's core stands out from it.</summary>
/// <remarks>
/// The paint is sampled on three circles of 24 points from 1.4 to 2 radii; what lies in another spot is left out. Their median, then a
/// plane through those within half of the contrast of it, stands for the paint.
/// </remarks>
internal sealed class SpotProbe(Plane lightness, bool[] clipped, bool[] covered)
{
    internal const int Directions = 24;
    private const int Circles = 3;
    private const int LeastSamples = 10;

    internal static readonly (float X, float Y)[] Units = MakeUnits();

    private readonly float[] _values = new float[Circles * Directions];
    private readonly float[] _sorted = new float[Circles * Directions];
    private readonly float[] _rim = new float[Directions];
    private readonly (int X, int Y)[] _places = new (int X, int Y)[Circles * Directions];

    internal Plane Lightness => lightness;

    internal bool IsClipped(SpotSeed seed) => clipped[(seed.Y * lightness.Width) + seed.X];

    /// <summary>Mean of the core: the disk of half the radius.</summary>
    internal float Core(SpotSeed seed)
    {
        var reach = (int)(0.5f * seed.RadiusPx);
        var step = Math.Max(1, reach / 4);
        var (sum, count) = (0.0, 0);
        for (var dy = -reach; dy <= reach; dy += step)
        {
            for (var dx = -reach; dx <= reach; dx += step)
            {
                var (x, y) = (seed.X + dx, seed.Y + dy);
                if ((dx * dx) + (dy * dy) <= reach * reach && IsInside(x, y))
                {
                    sum += lightness[x, y];
                    count++;
                }
            }
        }

        return count == 0 ? lightness[seed.X, seed.Y] : (float)(sum / count);
    }

    /// <summary>The paint around a seed; null where too little of it is seen.</summary>
    internal Surround? Around(SpotSeed seed, float core)
    {
        var count = Sample(seed);
        if (count < LeastSamples)
        {
            return null;
        }

        _values.AsSpan(0, count).CopyTo(_sorted);
        Array.Sort(_sorted, 0, count);
        var median = _sorted[count / 2];
        return Fit(median, 0.5f * Math.Abs(core - median), Math.Sign(core - median), count);
    }

    /// <summary>The seed moved to the middle of its rim and given the rim's radius; the rim is where half of the contrast is left.</summary>
    /// <remarks>
    /// Rays in 24 directions: the radius is the median of those that leave the spot within 2 radii, the center the mean of opposite
    /// ones. Roundness is a short ray over a long one (10th and 90th percentile): small where the seed lies in a waist between two. The scales of the blob filters are coarse, so that neighbors could not be told from the rim without this.
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

        var (shiftX, shiftY, pairs) = (0.0f, 0.0f, 0);
        for (var i = 0; i < Directions / 2; i++)
        {
            var half = 0.5f * (_rim[i] - _rim[i + (Directions / 2)]);
            if (!float.IsNaN(half))
            {
                shiftX += half * Units[i].X;
                shiftY += half * Units[i].Y;
                pairs++;
            }
        }

        // Shifts along all directions of a half circle add up to half of their number times the shift of the center.
        var scale = pairs < Directions / 4 ? 0.0f : 2.0f / pairs;
        Array.Sort(_sorted, 0, count);
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

    private int Sample(SpotSeed seed)
    {
        var (inner, outer) = ((1.4f * seed.RadiusPx) + 1.5f, (2.0f * seed.RadiusPx) + 3.0f);
        var count = 0;
        for (var circle = 0; circle < Circles; circle++)
        {
            var radius = inner + (circle * (outer - inner) / (Circles - 1));
            foreach (var (unitX, unitY) in Units)
            {
                var (dx, dy) = ((int)MathF.Round(radius * unitX), (int)MathF.Round(radius * unitY));
                var (x, y) = (seed.X + dx, seed.Y + dy);
                if (!IsInside(x, y))
                {
                    continue;
                }

                var at = (y * lightness.Width) + x;
                if (!covered[at] && !clipped[at])
                {
                    _values[count] = lightness.Values[at];
                    _places[count++] = (dx, dy);
                }
            }
        }

        return count;
    }

    // Least squares over the samples that are paint; the closed form of three normal equations about the samples' mean.
    private Surround Fit(float median, float reach, int sign, int count)
    {
        var (n, closed) = (0, 0);
        double sumX = 0, sumY = 0, sumV = 0;
        for (var i = 0; i < count; i++)
        {
            closed += sign * (_values[i] - median) > reach ? 1 : 0;
            if (Math.Abs(_values[i] - median) <= reach)
            {
                n++;
                sumX += _places[i].X;
                sumY += _places[i].Y;
                sumV += _values[i];
            }
        }

        var open = 1.0f - ((float)closed / count);
        if (n < LeastSamples)
        {
            return new(median, 0.0f, 0.0f, Scatter(median, 0.0f, 0.0f, count), open);
        }

        var (meanX, meanY, meanV) = (sumX / n, sumY / n, sumV / n);
        double xx = 0, xy = 0, yy = 0, xv = 0, yv = 0;
        for (var i = 0; i < count; i++)
        {
            if (Math.Abs(_values[i] - median) <= reach)
            {
                var (dx, dy, dv) = (_places[i].X - meanX, _places[i].Y - meanY, _values[i] - meanV);
                xx += dx * dx;
                xy += dx * dy;
                yy += dy * dy;
                xv += dx * dv;
                yv += dy * dv;
            }
        }

        // Samples on one side alone do not tell a slope.
        var determinant = (xx * yy) - (xy * xy);
        var (slopeX, slopeY) = determinant > 0.1 * (xx + yy) * (xx + yy) / 4.0
            ? (((xv * yy) - (yv * xy)) / determinant, ((yv * xx) - (xv * xy)) / determinant)
            : (0.0, 0.0);
        var level = (float)(meanV - (slopeX * meanX) - (slopeY * meanY));
        return new(level, (float)slopeX, (float)slopeY, Scatter(level, (float)slopeX, (float)slopeY, count), open);
    }

    // Of all samples: texture as strong as the spot itself must not drop out as not paint.
    private float Scatter(float level, float slopeX, float slopeY, int count)
    {
        for (var i = 0; i < count; i++)
        {
            _sorted[i] = _values[i] - level - (slopeX * _places[i].X) - (slopeY * _places[i].Y);
        }

        Array.Sort(_sorted, 0, count);
        return 0.7413f * (_sorted[3 * count / 4] - _sorted[count / 4]);
    }
}
