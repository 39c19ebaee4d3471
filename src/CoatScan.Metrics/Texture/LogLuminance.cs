using System.Numerics;
using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Texture;

/// <summary>Natural logarithm of luminance: a small difference in it is a local contrast, dY / Y.</summary>
internal static class LogLuminance
{
    // Keeps black finite; well below the darkest paint in a usable photo.
    private const float Floor = 0.002f;

    internal static Plane Of(PanelPlanes panel, PlaneScope scope) =>
        Of(panel.Red, panel.Green, panel.Blue, scope);

    internal static Plane Of(Plane redPlane, Plane greenPlane, Plane bluePlane, PlaneScope scope)
    {
        var target = scope.RentLike(redPlane);
        var (red, green, blue) = (redPlane.Values, greenPlane.Values, bluePlane.Values);
        var values = target.Values;
        var step = Vector<float>.Count;
        var i = 0;
        for (; i <= values.Length - step; i += step)
        {
            Luminance(new(red, i), new(green, i), new(blue, i)).CopyTo(values, i);
        }

        if (i < values.Length)
        {
            Span<float> r = stackalloc float[step];
            Span<float> g = stackalloc float[step];
            Span<float> b = stackalloc float[step];
            red.AsSpan(i).CopyTo(r);
            green.AsSpan(i).CopyTo(g);
            blue.AsSpan(i).CopyTo(b);
            var rest = Luminance(new(r), new(g), new(b));
            for (var k = 0; i + k < values.Length; k++)
            {
                values[i + k] = rest[k];
            }
        }

        return target;
    }

    private static Vector<float> Luminance(Vector<float> red, Vector<float> green, Vector<float> blue) =>
        Vector.Log(Vector.Max(
            (red * (float)CieLab.RedLuminance)
            + (green * (float)CieLab.GreenLuminance)
            + (blue * (float)CieLab.BlueLuminance),
            Vector<float>.Zero) + new Vector<float>(Floor));
}
