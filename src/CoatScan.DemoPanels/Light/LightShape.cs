using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Light;

/// <summary>
/// A bright (or dark) rectangle or ellipse among the surroundings. Lengths are in environment coordinates: radians of
/// direction near straight ahead, stereographic farther out.
/// </summary>
internal sealed class LightShape
{
    private readonly float _cos;
    private readonly float _sin;
    private readonly float _reach;

    public LightShape(float u, float v, float halfU, float halfV, float angle, float softness, bool isRound, Rgb radiance)
    {
        U = u;
        V = v;
        HalfU = halfU;
        HalfV = halfV;
        Softness = softness;
        IsRound = isRound;
        Radiance = radiance;
        _reach = MathF.Sqrt((halfU * halfU) + (halfV * halfV));
        _cos = MathF.Cos(angle);
        _sin = MathF.Sin(angle);
    }

    public float U { get; }

    public float V { get; }

    public float HalfU { get; }

    public float HalfV { get; }

    /// <summary>Width of the edge itself, radians.</summary>
    public float Softness { get; }

    public bool IsRound { get; }

    /// <summary>What the shape shows, replacing what lies behind it.</summary>
    public Rgb Radiance { get; }

    /// <summary>Coverage at a direction when the reflection is blurred by <paramref name="blur"/> radians (rms).</summary>
    public float Coverage(float u, float v, float blur)
    {
        var du = u - U;
        var dv = v - V;

        // A smooth step from -w to w has the variance of a Gaussian of sigma = w * 0.447.
        var w = MathF.Max(Softness, 2.2f * blur);
        if ((du * du) + (dv * dv) > (_reach + w) * (_reach + w))
        {
            return 0f;
        }

        var along = MathF.Abs((du * _cos) + (dv * _sin));
        var across = MathF.Abs((dv * _cos) - (du * _sin));
        if (IsRound)
        {
            var share = MathF.Sqrt((along * along / (HalfU * HalfU)) + (across * across / (HalfV * HalfV)));
            var size = MathF.Min(HalfU, HalfV);
            return Edge((1f - share) * size, w) * Dilution(size, w);
        }

        if (along > HalfU + w || across > HalfV + w)
        {
            return 0f;
        }

        return Edge(HalfU - along, w) * Edge(HalfV - across, w) * Dilution(HalfU, w) * Dilution(HalfV, w);
    }

    private static float Edge(float inside, float w) => Ramp.Smooth(-w, w, inside);

    // A shape narrower than the blur spreads its light instead of keeping its peak.
    private static float Dilution(float half, float w) => half >= w ? 1f : half / w;
}
