namespace CoatScan.DemoPanels.Surface;

/// <summary>An irregular closed outline around a center, as radius over angle.</summary>
internal sealed class Blob
{
    private const int AngleSteps = 128;
    private readonly float[] _radiusPx = new float[AngleSteps + 1];
    private readonly float _cos;
    private readonly float _sin;
    private readonly float _stretch;

    public Blob(PanelRandom random, float x, float y, float radiusPx, float irregularity, float elongation = 1f, int harmonics = 9)
    {
        CenterX = x;
        CenterY = y;
        RadiusPx = radiusPx;
        var turn = random.Angle();
        _cos = MathF.Cos(turn);
        _sin = MathF.Sin(turn);
        _stretch = MathF.Sqrt(elongation);

        Array.Fill(_radiusPx, 1f);
        for (var harmonic = 1; harmonic <= harmonics; harmonic++)
        {
            var amplitude = irregularity * 0.5f * random.Gaussian() / MathF.Pow(harmonic, 0.8f);
            var phase = random.Angle();
            for (var i = 0; i <= AngleSteps; i++)
            {
                _radiusPx[i] += amplitude * MathF.Cos((harmonic * i * 2f * MathF.PI / AngleSteps) + phase);
            }
        }

        for (var i = 0; i <= AngleSteps; i++)
        {
            _radiusPx[i] = Math.Clamp(_radiusPx[i], 0.3f, 2f) * radiusPx;
            ReachPx = MathF.Max(ReachPx, _radiusPx[i] * _stretch);
        }
    }

    public float CenterX { get; }

    public float CenterY { get; }

    public float RadiusPx { get; }

    /// <summary>No point of the outline is farther from the center than this.</summary>
    public float ReachPx { get; }

    /// <summary>About the distance to the outline, pixels, negative inside.</summary>
    public float DistancePx(float x, float y)
    {
        Polar(x, y, out var radius, out var outline);
        return radius - outline;
    }

    /// <summary>Distance from the center as a share of the outline's: 0 center, 1 outline.</summary>
    public float Share(float x, float y)
    {
        Polar(x, y, out var radius, out var outline);
        return radius / outline;
    }

    private void Polar(float x, float y, out float radius, out float outline)
    {
        var dx = x - CenterX;
        var dy = y - CenterY;
        var along = ((dx * _cos) + (dy * _sin)) / _stretch;
        var across = ((dy * _cos) - (dx * _sin)) * _stretch;
        radius = MathF.Sqrt((along * along) + (across * across));
        var step = (MathF.Atan2(across, along) + MathF.PI) * (AngleSteps / (2f * MathF.PI));
        var first = Math.Clamp((int)step, 0, AngleSteps - 1);
        outline = Ramp.Mix(_radiusPx[first], _radiusPx[first + 1], step - first);
    }
}
