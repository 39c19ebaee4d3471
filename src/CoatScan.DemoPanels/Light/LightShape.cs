using System.Numerics;
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

    /// <summary>Coverage at directions when the reflection is blurred by <paramref name="blur"/> radians (rms).</summary>
    public Vector<float> Coverage(Vector<float> u, Vector<float> v, Vector<float> blur)
    {
        var du = u - new Vector<float>(U);
        var dv = v - new Vector<float>(V);

        // A smooth step from -w to w has the variance of a Gaussian of sigma = w * 0.447.
        var w = Vector.Max(new Vector<float>(Softness), blur * 2.2f);
        var reach = w + new Vector<float>(_reach);
        var isNear = Vector.LessThanOrEqual((du * du) + (dv * dv), reach * reach);
        if (isNear == Vector<int>.Zero)
        {
            return Vector<float>.Zero;
        }

        var along = Vector.Abs((du * _cos) + (dv * _sin));
        var across = Vector.Abs((dv * _cos) - (du * _sin));
        if (!IsRound)
        {
            return Edge(new Vector<float>(HalfU) - along, w) * Edge(new Vector<float>(HalfV) - across, w)
                * Dilution(HalfU, w) * Dilution(HalfV, w);
        }

        var share = Vector.SquareRoot((along * along * (1f / (HalfU * HalfU))) + (across * across * (1f / (HalfV * HalfV))));
        var size = MathF.Min(HalfU, HalfV);
        var coverage = Edge((Vector<float>.One - share) * size, w) * Dilution(size, w);
        return Vector.ConditionalSelect(isNear, coverage, Vector<float>.Zero);
    }

    private static Vector<float> Edge(Vector<float> inside, Vector<float> w) => Ramp.Smooth(-w, w, inside);

    // A shape narrower than the blur spreads its light instead of keeping its peak.
    private static Vector<float> Dilution(float half, Vector<float> w) =>
        Vector.Min(Vector<float>.One, new Vector<float>(half) / w);
}
