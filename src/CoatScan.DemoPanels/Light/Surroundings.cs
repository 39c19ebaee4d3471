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
        Shapes = shapes;
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

    public IReadOnlyList<LightShape> Shapes { get; }

    /// <summary>
    /// What fully scattered light looks like at a direction: the background, blurred wide, with the shapes' light spread
    /// over the half space they stand in.
    /// </summary>
    public Rgb Haze(float u, float v) => Background(u, v, HazeSpreadRad) + _shapesInHaze;

    /// <summary>Surroundings of one tone: the case in which waviness cannot be seen.</summary>
    public static Surroundings Uniform(float radiance) => new(
        Rgb.Gray(radiance), Rgb.Gray(radiance), Rgb.Gray(radiance), Rgb.Gray(radiance), 0f, 0f, 0.1f, [0f], []);

    /// <summary>A bright half over a dark half with one straight level edge.</summary>
    public static Surroundings StraightEdge(float bright, float dark, float angle, float softness) => new(
        Rgb.Gray(bright), Rgb.Gray(bright), Rgb.Gray(dark), Rgb.Gray(dark), angle, 0f, softness, [0f], []);

    /// <summary>Mirror image at a direction, blurred by <paramref name="blur"/> radians (rms).</summary>
    public Rgb Mirror(float u, float v, float blur)
    {
        var color = Background(u, v, blur);
        foreach (var shape in Shapes)
        {
            var coverage = shape.Coverage(u, v, blur);
            if (coverage > 0f)
            {
                color = Rgb.Mix(color, shape.Radiance, coverage);
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

    private Rgb Background(float u, float v, float blur)
    {
        var along = (u * _cos) + (v * _sin);
        var above = HorizonAt + Skyline(along) - ((v * _cos) - (u * _sin));
        var w = MathF.Max(HorizonSoftness, 2.2f * blur);
        if (above > w)
        {
            return Rgb.Mix(NearSky, Zenith, MathF.Min(1f, above));
        }

        if (above < -w)
        {
            return Rgb.Mix(NearGround, Ground, MathF.Min(1f, -above));
        }

        return Rgb.Mix(
            Rgb.Mix(NearGround, Ground, MathF.Max(0f, -above)),
            Rgb.Mix(NearSky, Zenith, MathF.Max(0f, above)),
            Ramp.Smooth(-w, w, above));
    }

    private float Skyline(float along)
    {
        if (_skyline.Length == 1)
        {
            return _skyline[0];
        }

        var position = Math.Clamp((along + SkylineReach) / (2f * SkylineReach), 0f, 0.9999f) * (_skyline.Length - 1);
        var first = (int)position;
        return Ramp.Mix(_skyline[first], _skyline[first + 1], position - first);
    }
}
