using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Light;

/// <summary>Light that falls on the panel and is scattered back by pigment. A white diffuser facing the camera shows 1.</summary>
/// <param name="Ambient">Share that comes from everywhere.</param>
/// <param name="AmbientTiltX">How much brighter the ambient light gets per unit of surface slope toward +x.</param>
/// <param name="AmbientTiltY">The same toward +y.</param>
/// <param name="LightX">Direction to the main light, x.</param>
/// <param name="LightY">Direction to the main light, y (down in the picture).</param>
/// <param name="LightZ">Direction to the main light, toward the camera.</param>
/// <param name="Tint">Color of the light, mean 1.</param>
internal sealed record Illumination(
    float Ambient, float AmbientTiltX, float AmbientTiltY, float LightX, float LightY, float LightZ, Rgb Tint)
{
    /// <summary>Light from all sides alike.</summary>
    public static Illumination Even { get; } = new(1f, 0f, 0f, 0f, 0f, 1f, Rgb.Gray(1f));

    public static Illumination Draw(PanelRandom random, LightKind kind)
    {
        var heading = random.Angle();
        var elevation = random.Uniform(0.3f, 1.2f);
        var ambient = kind switch
        {
            LightKind.Sun => random.Uniform(0.25f, 0.5f),
            LightKind.Overcast => random.Uniform(0.75f, 0.95f),
            _ => random.Uniform(0.4f, 0.85f),
        };
        var tilt = random.Uniform(0.1f, 0.5f);
        var tint = kind switch
        {
            LightKind.Dusk => new Rgb(1.18f, 0.98f, 0.78f),
            LightKind.Sun => new Rgb(1.04f, 1f, 0.94f),
            LightKind.Overcast => new Rgb(0.97f, 1f, 1.05f),
            LightKind.WarmLamp => new Rgb(1.25f, 0.98f, 0.68f),
            _ => new Rgb(1f, 1.01f, 0.98f),
        };
        return new Illumination(
            ambient,
            tilt * MathF.Cos(heading),
            tilt * MathF.Sin(heading),
            MathF.Cos(heading) * MathF.Cos(elevation),
            MathF.Sin(heading) * MathF.Cos(elevation),
            MathF.Sin(elevation),
            tint);
    }
}
