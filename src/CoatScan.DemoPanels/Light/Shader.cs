using System.Numerics;
using CoatScan.DemoPanels.Paint;
using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Light;

/// <summary>Light that leaves each point of a panel toward the camera: pigment below, mirror image above.</summary>
/// <remarks>
/// The mirrored direction follows from the law of reflection, so a slope turns it by twice its angle. Mirror reflectance
/// is Schlick's approximation of Fresnel's law. Fine roughness takes exp(-(4 pi sigma cos t / lambda)^2) out of the
/// mirror image into haze (Davies 1954; Bennett and Porteus, JOSA 51, 123, 1961; from memory).
/// Points of a row are shaded as many at a time as the processor's registers hold.
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
        var lanes = Vector<float>.Count;
        if (surface.Width < lanes)
        {
            for (var at = 0; at < surface.Width * surface.Height; at++)
            {
                image[at] = At(surface, at % surface.Width, at / surface.Width);
            }

            return image;
        }

        for (var y = 0; y < surface.Height; y++)
        {
            for (var x = 0; x < surface.Width; x += lanes)
            {
                // The last step starts early enough to end with the row.
                var from = Math.Min(x, surface.Width - lanes);
                var light = Radiance(surface, from, y, lanes);
                light.Red.CopyTo(image.Red.Row(y)[from..]);
                light.Green.CopyTo(image.Green.Row(y)[from..]);
                light.Blue.CopyTo(image.Blue.Row(y)[from..]);
            }
        }

        return image;
    }

    /// <summary>Radiance of one point, in units of a white diffuser under the same light.</summary>
    public Rgb At(PanelSurface surface, int x, int y)
    {
        var light = Radiance(surface, x, y, 1);
        return new Rgb(light.Red[0], light.Green[0], light.Blue[0]);
    }

    // The points from x on: one in each lane, or a single one in all lanes.
    private WideRgb Radiance(PanelSurface surface, int x, int y, int count)
    {
        var points = new SurfacePoints(surface, x, y, count);
        var mm = surface.MmPerPx;
        var scale = Vector<float>.One
            / Vector.SquareRoot(Vector<float>.One + (points.SlopeX * points.SlopeX) + (points.SlopeY * points.SlopeY));
        var nx = -points.SlopeX * scale;
        var ny = -points.SlopeY * scale;
        var nz = scale;

        var offsetX = (points.X - new Vector<float>(0.5f * (surface.Width - 1))) * mm;
        var offsetY = (y - (0.5f * (surface.Height - 1))) * mm;
        var vx = new Vector<float>(viewpoint.TiltX) - (offsetX * (1f / viewpoint.CameraDistanceMm));
        var vy = new Vector<float>(viewpoint.TiltY - (offsetY / viewpoint.CameraDistanceMm));
        var vz = Vector<float>.One / Vector.SquareRoot(Vector<float>.One + (vx * vx) + (vy * vy));
        vx *= vz;
        vy *= vz;
        var cosine = Vector.Max(new Vector<float>(0.02f), (nx * vx) + (ny * vy) + (nz * vz));
        var twice = cosine + cosine;
        var turn = new Vector<float>(2f) / (Vector<float>.One + Vector.Max(new Vector<float>(-0.8f), (twice * nz) - vz));
        var u = (((twice * nx) - vx) * turn) + (offsetX * (1f / viewpoint.SurroundingsDistanceMm));
        var v = (((twice * ny) - vy) * turn) + new Vector<float>(offsetY / viewpoint.SurroundingsDistanceMm);

        var light = points.Light * CastShadow(surface, x, y, count);
        var diffuse = Diffuse(nx, ny, nz);
        if (flakeContrast > 0f)
        {
            diffuse *= Flake((y * surface.Width) + x, cosine);
        }

        var grazing = Vector<float>.One - cosine;
        var square = grazing * grazing;
        var mirror = points.F0 + ((Vector<float>.One - points.F0) * square * square * grazing
            * Vector.Min(Vector<float>.One, points.F0 * 25f));
        var below = diffuse * light * (Vector<float>.One - mirror);
        var above = mirror * (new Vector<float>(0.3f) + (light * 0.7f));
        var reflected = Reflected(u, v, cosine, points.RoughnessUm);
        return new WideRgb(
            (points.Red * below * illumination.Tint.R) + (reflected.Red * above),
            (points.Green * below * illumination.Tint.G) + (reflected.Green * above),
            (points.Blue * below * illumination.Tint.B) + (reflected.Blue * above));
    }

    private Vector<float> Diffuse(Vector<float> nx, Vector<float> ny, Vector<float> nz)
    {
        var around = (Vector<float>.One + (nx * illumination.AmbientTiltX) + (ny * illumination.AmbientTiltY)) * illumination.Ambient;
        var direct = (nx * illumination.LightX) + (ny * illumination.LightY) + (nz * illumination.LightZ);
        return Vector.Max(Vector<float>.Zero, around)
            + (Vector.Max(Vector<float>.Zero, direct) * ((1f - illumination.Ambient) / illumination.LightZ));
    }

    private WideRgb Reflected(Vector<float> u, Vector<float> v, Vector<float> cosine, Vector<float> roughnessUm)
    {
        var phase = roughnessUm * cosine * (4f * MathF.PI / WavelengthUm);
        var sharp = Vector.Exp(-(phase * phase));
        if (Vector.LessThanAll(sharp, new Vector<float>(0.02f)))
        {
            return surroundings.Haze(u, v);
        }

        var image = surroundings.Mirror(u, v, roughnessUm * BlurRadPerUm);
        if (Vector.GreaterThanAll(sharp, new Vector<float>(0.98f)))
        {
            return image;
        }

        // A point must not depend on which others are shaded along with it: the short cuts above hold lane by lane.
        var share = Vector.ConditionalSelect(Vector.GreaterThan(sharp, new Vector<float>(0.98f)), Vector<float>.One, sharp);
        share = Vector.ConditionalSelect(Vector.LessThan(sharp, new Vector<float>(0.02f)), Vector<float>.Zero, share);
        return WideRgb.Mix(surroundings.Haze(u, v), image, share);
    }

    // Flakes lie nearly flat: they brighten a panel seen face on, and each pixel catches another set of them.
    private Vector<float> Flake(int at, Vector<float> cosine)
    {
        var hash = (Vector<uint>.Indices + new Vector<uint>((uint)at)) * 2654435761u;
        hash ^= hash >> 15;
        hash *= 2246822519u;
        hash ^= hash >> 13;
        var draw = Vector.ConvertToSingle(Vector.AsVectorInt32(hash & new Vector<uint>(0xFFFF)));
        var sparkle = (draw * (1f / 65535f)) - new Vector<float>(0.5f);
        return (new Vector<float>(0.75f) + (cosine * cosine * 0.35f))
            * (Vector<float>.One + (sparkle * (2f * flakeContrast)));
    }

    // Whether something near by stands between a point and the main light.
    private Vector<float> CastShadow(PanelSurface surface, int x, int y, int count)
    {
        if (_rise < 0f)
        {
            return Vector<float>.One;
        }

        var own = Heights(surface, x, y, count);
        var blocked = Vector<float>.Zero;
        for (var step = 1; step <= 4; step += step)
        {
            var px = x + (int)MathF.Floor((illumination.LightX * step * 1.4f) + 0.5f);
            var py = y + (int)MathF.Floor((illumination.LightY * step * 1.4f) + 0.5f);
            if ((uint)py >= (uint)surface.Height)
            {
                break;
            }

            var climb = (Heights(surface, px, py, count) - own) * (1f / (step * 1.4f * surface.MmPerPx));
            blocked = Vector.Max(blocked, climb - new Vector<float>(_rise));
        }

        var share = Vector.Min(Vector<float>.One, blocked * 2f);
        return Vector<float>.One - (share * (1f - illumination.Ambient));
    }

    // Nothing outside the picture casts a shadow.
    private static Vector<float> Heights(PanelSurface surface, int x, int y, int count)
    {
        var row = surface.HeightMm.Row(y);
        if (x >= 0 && x + count <= row.Length)
        {
            return count == 1 ? new Vector<float>(row[x]) : new Vector<float>(row[x..]);
        }

        Span<float> lanes = stackalloc float[Vector<float>.Count];
        for (var lane = 0; lane < lanes.Length; lane++)
        {
            var px = x + Math.Min(lane, count - 1);
            lanes[lane] = (uint)px < (uint)row.Length ? row[px] : float.NegativeInfinity;
        }

        return new Vector<float>(lanes);
    }

    /// <summary>What the formulas need to know of several neighbors in a row.</summary>
    private readonly ref struct SurfacePoints
    {
        public SurfacePoints(PanelSurface surface, int x, int y, int count)
        {
            var width = surface.Width;
            var at = (y * width) + x;
            var height = surface.HeightMm.Values;
            var up = Math.Max(y - 1, 0) * width;
            var down = Math.Min(y + 1, surface.Height - 1) * width;
            X = Vector.ConvertToSingle(Vector<int>.Indices + new Vector<int>(x));
            var across = 1f / ((down - up) / width * surface.MmPerPx);
            SlopeY = (Load(height, down + x, count) - Load(height, up + x, count)) * across;
            if (x > 0 && x + count < width)
            {
                SlopeX = (Load(height, at + 1, count) - Load(height, at - 1, count)) * (0.5f / surface.MmPerPx);
            }
            else
            {
                SlopeX = SlopeAtBorder(surface, x, y, count);
            }

            Red = Load(surface.Red.Values, at, count);
            Green = Load(surface.Green.Values, at, count);
            Blue = Load(surface.Blue.Values, at, count);
            F0 = Load(surface.SpecularF0.Values, at, count);
            RoughnessUm = Load(surface.RoughnessUm.Values, at, count);
            Light = Load(surface.Light.Values, at, count);
        }

        public Vector<float> X { get; }

        public Vector<float> SlopeX { get; }

        public Vector<float> SlopeY { get; }

        public Vector<float> Red { get; }

        public Vector<float> Green { get; }

        public Vector<float> Blue { get; }

        public Vector<float> F0 { get; }

        public Vector<float> RoughnessUm { get; }

        public Vector<float> Light { get; }

        private static Vector<float> Load(float[] values, int at, int count) =>
            count == Vector<float>.Count ? new Vector<float>(values, at) : new Vector<float>(values[at]);

        private static Vector<float> SlopeAtBorder(PanelSurface surface, int x, int y, int count)
        {
            Span<float> slopes = stackalloc float[Vector<float>.Count];
            var row = surface.HeightMm.Row(y);
            for (var lane = 0; lane < slopes.Length; lane++)
            {
                var here = x + Math.Min(lane, count - 1);
                int left = Math.Max(here - 1, 0), right = Math.Min(here + 1, row.Length - 1);
                slopes[lane] = (row[right] - row[left]) / ((right - left) * surface.MmPerPx);
            }

            return new Vector<float>(slopes);
        }
    }
}
