namespace CoatScan.Metrics.Marks;

/// <summary>What the paint around a seed is, and how far the seed's core stands out from it.</summary>
/// <remarks>
/// <para>The paint is sampled on three circles of 24 points from 1.4 to 2 radii; what lies in another spot is left out. Their median, then a
/// plane through those within half of the contrast of it, stands for the paint.</para>
/// <para>A look takes the samples; <see cref="Around"/>, <see cref="WithScatter"/> and <see cref="Across"/> then read them.</para>
/// </remarks>
internal sealed class SpotProbe
{
    private const double MostLeftOfStep = 0.04;

    private readonly Plane _lightness;
    private readonly bool[] _clipped;
    private readonly SpotSamples _samples;
    private readonly StepFit _step;
    private readonly SpotRim _rim;
    private readonly ShortRanks _ranks = new(ProbePlaces.Samples);
    private readonly float[] _residuals = new float[ProbePlaces.Samples];

    /// <param name="lightness">CIE L*.</param>
    /// <param name="clipped">One flag a pixel that is clipped to white.</param>
    /// <param name="covered">One flag a pixel that is no paint: clipped, or in a spot that was chosen.</param>
    internal SpotProbe(Plane lightness, bool[] clipped, bool[] covered)
    {
        (_lightness, _clipped) = (lightness, clipped);
        _samples = new SpotSamples(lightness, covered);
        _step = new StepFit(_samples);
        _rim = new SpotRim(lightness);
    }

    internal Plane Lightness => _lightness;

    internal bool IsClipped(SpotSeed seed) => _clipped[(seed.Y * _lightness.Width) + seed.X];

    /// <inheritdoc cref="SpotSamples.Look"/>
    internal float Look(SpotSeed seed) => _samples.Look(seed);

    /// <summary>The paint around the seed of the last look, its scatter left out; null where too little of it is seen.</summary>
    internal Surround? Around(float core)
    {
        var median = _samples.Quantiles.Median;
        return _samples.Count < SpotSamples.Least
            ? null
            : PlaneFit.Of(_samples, median, 0.5f * Math.Abs(core - median), Math.Sign(core - median));
    }

    /// <summary>The same with the scatter of the samples.</summary>
    /// <remarks>Of all samples: texture as strong as the spot itself must not drop out as not paint.</remarks>
    internal Surround WithScatter(Surround around)
    {
        var (count, values, xs, ys) = (_samples.Count, _samples.Values, _samples.Xs, _samples.Ys);
        for (var i = 0; i < count; i++)
        {
            _residuals[i] = values[i] - around.Level - (around.SlopeX * xs[i]) - (around.SlopeY * ys[i]);
        }

        return around with { Scatter = ScatterOfResiduals() };
    }

    /// <summary>The paint around the seed of the last look, with its scatter, if the edge of a reflection runs across; null otherwise.</summary>
    /// <remarks>It is an edge if its height is 3 L* or more and what it leaves is under a fifth of the scatter of the samples.</remarks>
    internal Surround? Across()
    {
        if (_samples.Count < 2 * SpotSamples.Least || _step.Fit() is not { } around)
        {
            return null;
        }

        var (count, mean, left, total) = (_samples.Count, _samples.Mean(), 0.0, 0.0);
        for (var i = 0; i < count; i++)
        {
            var residual = _samples.Values[i] - around.At(_samples.Xs[i], _samples.Ys[i]);
            _residuals[i] = residual;
            left += residual * residual;
            total += (_samples.Values[i] - mean) * (_samples.Values[i] - mean);
        }

        // Shares of squares.
        return (total > 0.0 ? left / total : 1.0) <= MostLeftOfStep ? around with { Scatter = ScatterOfResiduals() } : null;
    }

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
                if ((dx * dx) + (dy * dy) <= reach * reach && _lightness.Contains(x, y))
                {
                    var side = around.Step!.Share(dx, dy) > 0.5f ? 1 : 0;
                    sums[side] += _lightness[x, y] - around.At(dx, dy);
                    counts[side]++;
                }
            }
        }

        var all = counts[0] + counts[1];
        var (dark, light) = ((float)(sums[0] / Math.Max(1, counts[0])), (float)(sums[1] / Math.Max(1, counts[1])));
        return 8 * counts[0] < all ? (light, light) : 8 * counts[1] < all ? (dark, dark) : (dark, light);
    }

    /// <inheritdoc cref="SpotRim.Refine"/>
    internal (SpotSeed Seed, float Roundness) Refine(SpotSeed seed, Surround around, float contrast) => _rim.Refine(seed, around, contrast);

    private float ScatterOfResiduals()
    {
        _ranks.Rank(_residuals.AsSpan(0, _samples.Count));
        return 0.7413f * (_ranks.At(3 * _samples.Count / 4) - _ranks.At(_samples.Count / 4));
    }
}
