namespace CoatScan.Metrics.Marks;

/// <summary>Finds the rim of a spot along rays from its seed.</summary>
/// <param name="lightness">CIE L*.</param>
internal sealed class SpotRim(Plane lightness)
{
    private const int Directions = RayDirections.Count;
    private const float LongestOverMedian = 1.6f;

    private readonly float[] _sorted = new float[Directions];
    private readonly float[] _rim = new float[Directions];

    /// <summary>The seed moved to the middle of its rim and given the rim's radius; the rim is where half of the contrast is left.</summary>
    /// <remarks>
    /// Rays in 24 directions: the radius is the median of those that leave the spot within 2 radii, the center the mean of opposite
    /// ones, but for those that run on into a spot that touches. Roundness is a short ray over a long one (10th and 90th percentile):
    /// small where the seed lies in a waist between two. The scales of the blob filters are coarse, so that neighbors could not be
    /// told from the rim without this.
    /// </remarks>
    internal (SpotSeed Seed, float Roundness) Refine(SpotSeed seed, Surround around, float contrast)
    {
        var count = 0;
        for (var i = 0; i < Directions; i++)
        {
            _rim[i] = Rim(seed, around, 0.5f * contrast, RayDirections.Units[i]);
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
                shiftX += half * RayDirections.Units[i].X;
                shiftY += half * RayDirections.Units[i].Y;
                pairs++;
            }
        }

        // Shifts along all directions of a half circle add up to half of their number times the shift of the center.
        var scale = pairs < Directions / 4 ? 0.0f : 2.0f / pairs;
        var (x, y) = (seed.X + (int)MathF.Round(scale * shiftX), seed.Y + (int)MathF.Round(scale * shiftY));
        var refined = lightness.Contains(x, y) ? seed with { X = x, Y = y, RadiusPx = Math.Max(1.0f, _sorted[count / 2]) } : seed;
        return (refined, _sorted[count / 10] / _sorted[Math.Max(0, (9 * count / 10) - 1)]);
    }

    private float Rim(SpotSeed seed, Surround around, float half, (float X, float Y) unit)
    {
        var step = Math.Max(0.5f, seed.RadiusPx / 16.0f);
        var end = (2.0f * seed.RadiusPx) + 3.0f;
        for (var radius = step; radius <= end; radius += step)
        {
            var (dx, dy) = ((int)MathF.Round(radius * unit.X), (int)MathF.Round(radius * unit.Y));
            if (!lightness.Contains(seed.X + dx, seed.Y + dy))
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
}
