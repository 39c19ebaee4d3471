using System.Numerics;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Light;

/// <summary>
/// What the panel mirrors: sky over ground with an uneven horizon, lights, windows, dark bodies. Radiance 1 is that of a
/// white diffuser lying on the panel. Everything is a formula, so edges stay sharp however close the camera is and a
/// blurred reflection costs no more than a sharp one.
/// </summary>
internal sealed class Surroundings
{
    private const float SkylineReach = 3f;
    private const float HazeSpreadRad = 0.45f;
    private readonly float[] _skyline;
    private readonly LightShape[] _shapes;
    private readonly float _cos;
    private readonly float _sin;
    private readonly Rgb _shapesInHaze;

    public Surroundings(Rgb zenith, Rgb nearSky, Rgb nearGround, Rgb ground, float horizonAngle, float horizonAt,
        float horizonSoftness, float[] skyline, IReadOnlyList<LightShape> shapes)
    {
        Zenith = zenith;
        NearSky = nearSky;
        NearGround = nearGround;
        Ground = ground;
        HorizonAngle = horizonAngle;
        HorizonAt = horizonAt;
        HorizonSoftness = horizonSoftness;
        _skyline = skyline;
        _shapes = [.. shapes];
        _cos = MathF.Cos(horizonAngle);
        _sin = MathF.Sin(horizonAngle);
        _shapesInHaze = Spread(shapes, Rgb.Mix(nearSky, nearGround, 0.5f));
    }

    public Rgb Zenith { get; }

    public Rgb NearSky { get; }

    public Rgb NearGround { get; }

    public Rgb Ground { get; }

    /// <summary>Direction of the horizon line, radians; 0 is level with the sky toward negative v (up in the picture).</summary>
    public float HorizonAngle { get; }

    public float HorizonAt { get; }

    public float HorizonSoftness { get; }

    public IReadOnlyList<LightShape> Shapes => _shapes;

    /// <summary>
    /// What fully scattered light looks like at a direction: the background, blurred wide, with the shapes' light spread
    /// over the half space they stand in.
    /// </summary>
    public WideRgb Haze(Vector<float> u, Vector<float> v) =>
        Background(u, v, new Vector<float>(HazeSpreadRad)) + _shapesInHaze;

    /// <summary>Surroundings of one tone: the case in which waviness cannot be seen.</summary>
    public static Surroundings Uniform(float radiance) => new(
        Rgb.Gray(radiance), Rgb.Gray(radiance), Rgb.Gray(radiance), Rgb.Gray(radiance), 0f, 0f, 0.1f, [0f], []);

    /// <summary>A bright half over a dark half with one straight level edge.</summary>
    public static Surroundings StraightEdge(float bright, float dark, float angle, float softness) => new(
        Rgb.Gray(bright), Rgb.Gray(bright), Rgb.Gray(dark), Rgb.Gray(dark), angle, 0f, softness, [0f], []);

    /// <summary>Mirror image at directions, blurred by <paramref name="blur"/> radians (rms).</summary>
    public WideRgb Mirror(Vector<float> u, Vector<float> v, Vector<float> blur)
    {
        var color = Background(u, v, blur);
        foreach (var shape in _shapes)
        {
            var coverage = shape.Coverage(u, v, blur);
            if (Vector.GreaterThanAny(coverage, Vector<float>.Zero))
            {
                color = WideRgb.Mix(color, shape.Radiance, coverage);
            }
        }

        return color;
    }

    private static Rgb Spread(IReadOnlyList<LightShape> shapes, Rgb behind)
    {
        // A lobe of the haze's width covers 2 pi sigma^2 of the environment's plane.
        const float LobeArea = 2f * MathF.PI * HazeSpreadRad * HazeSpreadRad;
        var sum = Rgb.Gray(0f);
        foreach (var shape in shapes)
        {
            var area = shape.IsRound ? MathF.PI * shape.HalfU * shape.HalfV : 4f * shape.HalfU * shape.HalfV;
            sum += (shape.Radiance + (behind * -1f)) * MathF.Min(0.5f, 0.5f * area / LobeArea);
        }

        return sum.Clamp(0f, 3f);
    }

    private WideRgb Background(Vector<float> u, Vector<float> v, Vector<float> blur)
    {
        var along = (u * _cos) + (v * _sin);
        var above = new Vector<float>(HorizonAt) + Skyline(along) - ((v * _cos) - (u * _sin));
        var w = Vector.Max(new Vector<float>(HorizonSoftness), blur * 2.2f);
        var up = Vector.Min(Vector<float>.One, Vector.Max(Vector<float>.Zero, above));
        if (Vector.GreaterThanAll(above, w))
        {
            return WideRgb.Mix(NearSky, Zenith, up);
        }

        var down = Vector.Min(Vector<float>.One, Vector.Max(Vector<float>.Zero, -above));
        return Vector.LessThanAll(above, -w)
            ? WideRgb.Mix(NearGround, Ground, down)
            : WideRgb.Mix(
                WideRgb.Mix(NearGround, Ground, down), WideRgb.Mix(NearSky, Zenith, up), Ramp.Smooth(-w, w, above));
    }

    private Vector<float> Skyline(Vector<float> along)
    {
        if (_skyline.Length == 1)
        {
            return new Vector<float>(_skyline[0]);
        }

        var position = (along + new Vector<float>(SkylineReach)) * (1f / (2f * SkylineReach));
        position = Vector.Min(new Vector<float>(0.9999f), Vector.Max(Vector<float>.Zero, position)) * (_skyline.Length - 1f);
        Span<float> lanes = stackalloc float[Vector<float>.Count];
        position.CopyTo(lanes);
        foreach (ref var lane in lanes)
        {
            var first = (int)lane;
            lane = Ramp.Mix(_skyline[first], _skyline[first + 1], lane - first);
        }

        return new Vector<float>(lanes);
    }
}
