using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Light;

/// <summary>Light that leaves each point of a panel toward the camera: pigment below, mirror image above.</summary>
/// <remarks>
/// The mirrored direction follows from the law of reflection, so a slope turns it by twice its angle. Mirror reflectance
/// is Schlick's approximation of Fresnel's law. Fine roughness takes exp(-(4 pi sigma cos t / lambda)^2) out of the
/// mirror image into haze (Davies 1954; Bennett and Porteus, JOSA 51, 123, 1961; from memory).
/// </remarks>
internal sealed class Shader(Surroundings surroundings, Illumination illumination, Viewpoint viewpoint, float flakeContrast)
{
    private const float WavelengthUm = 0.55f;

    // Rms slope that goes with roughness: structures of some 20 um length, 0.1 um high, tilt by some 10 mrad.
    private const float BlurRadPerUm = 0.12f;

    // Slope of the ray to the main light; negative where its shadows are too weak to matter.
    private readonly float _rise = illumination.Ambient > 0.9f
        ? -1f
        : illumination.LightZ / MathF.Max(0.05f, MathF.Sqrt(1f - (illumination.LightZ * illumination.LightZ)));

    public LinearImage Shade(PanelSurface surface)
    {
        var image = new LinearImage(surface.Width, surface.Height);
        for (var y = 0; y < surface.Height; y++)
        {
            for (var x = 0; x < surface.Width; x++)
            {
                image[(y * surface.Width) + x] = At(surface, x, y);
            }
        }

        return image;
    }

    /// <summary>Radiance of one point, in units of a white diffuser under the same light.</summary>
    public Rgb At(PanelSurface surface, int x, int y)
    {
        var width = surface.Width;
        var height = surface.HeightMm.Values;
        var at = (y * width) + x;
        var mm = surface.MmPerPx;
        int left = Math.Max(x - 1, 0), right = Math.Min(x + 1, width - 1);
        int up = Math.Max(y - 1, 0), down = Math.Min(y + 1, surface.Height - 1);
        var slopeX = (height[(y * width) + right] - height[(y * width) + left]) / ((right - left) * mm);
        var slopeY = (height[(down * width) + x] - height[(up * width) + x]) / ((down - up) * mm);
        var scale = 1f / MathF.Sqrt(1f + (slopeX * slopeX) + (slopeY * slopeY));
        float nx = -slopeX * scale, ny = -slopeY * scale, nz = scale;

        var offsetX = (x - (0.5f * (width - 1))) * mm;
        var offsetY = (y - (0.5f * (surface.Height - 1))) * mm;
        var vx = viewpoint.TiltX - (offsetX / viewpoint.CameraDistanceMm);
        var vy = viewpoint.TiltY - (offsetY / viewpoint.CameraDistanceMm);
        var vScale = 1f / MathF.Sqrt(1f + (vx * vx) + (vy * vy));
        vx *= vScale;
        vy *= vScale;
        var cosine = MathF.Max(0.02f, (nx * vx) + (ny * vy) + (nz * vScale));
        var rz = 1f + MathF.Max(-0.8f, (2f * cosine * nz) - vScale);
        var u = (2f * ((2f * cosine * nx) - vx) / rz) + (offsetX / viewpoint.SurroundingsDistanceMm);
        var v = (2f * ((2f * cosine * ny) - vy) / rz) + (offsetY / viewpoint.SurroundingsDistanceMm);

        var light = surface.Light.Values[at] * CastShadow(surface, at, x, y);
        var diffuse = MathF.Max(0f, illumination.Ambient
            * (1f + (illumination.AmbientTiltX * nx) + (illumination.AmbientTiltY * ny)))
            + ((1f - illumination.Ambient) * MathF.Max(0f, (nx * illumination.LightX) + (ny * illumination.LightY)
                + (nz * illumination.LightZ)) / illumination.LightZ);
        if (flakeContrast > 0f)
        {
            diffuse *= Flake(at, cosine);
        }

        var f0 = surface.SpecularF0.Values[at];
        var grazing = 1f - cosine;
        var square = grazing * grazing;
        var mirror = f0 + ((1f - f0) * square * square * grazing * MathF.Min(1f, f0 * 25f));
        var color = surface.Albedo(at) * (diffuse * light * (1f - mirror)) * illumination.Tint;
        return color + (Reflected(u, v, cosine, surface.RoughnessUm.Values[at]) * (mirror * (0.3f + (0.7f * light))));
    }

    private Rgb Reflected(float u, float v, float cosine, float roughnessUm)
    {
        var phase = 4f * MathF.PI * roughnessUm * cosine / WavelengthUm;
        var sharp = MathF.Exp(-phase * phase);
        if (sharp < 0.02f)
        {
            return surroundings.Haze(u, v);
        }

        var image = surroundings.Mirror(u, v, roughnessUm * BlurRadPerUm);
        return sharp > 0.98f ? image : Rgb.Mix(surroundings.Haze(u, v), image, sharp);
    }

    // Flakes lie nearly flat: they brighten a panel seen face on, and each pixel catches another set of them.
    private float Flake(int at, float cosine)
    {
        var hash = (uint)at * 2654435761u;
        hash ^= hash >> 15;
        hash *= 2246822519u;
        hash ^= hash >> 13;
        var sparkle = ((hash & 0xFFFF) / 65535f) - 0.5f;
        return (0.75f + (0.35f * cosine * cosine)) * (1f + (2f * flakeContrast * sparkle));
    }

    // Whether something near by stands between this point and the main light.
    private float CastShadow(PanelSurface surface, int at, int x, int y)
    {
        if (_rise < 0f)
        {
            return 1f;
        }

        var height = surface.HeightMm.Values;
        var blocked = 0f;
        for (var step = 1; step <= 4; step += step)
        {
            var px = (int)(x + (illumination.LightX * step * 1.4f) + 0.5f);
            var py = (int)(y + (illumination.LightY * step * 1.4f) + 0.5f);
            if ((uint)px >= (uint)surface.Width || (uint)py >= (uint)surface.Height)
            {
                break;
            }

            var climb = (height[(py * surface.Width) + px] - height[at]) / (step * 1.4f * surface.MmPerPx);
            blocked = MathF.Max(blocked, climb - _rise);
        }

        return 1f - ((1f - illumination.Ambient) * Math.Clamp(blocked * 2f, 0f, 1f));
    }
}
