using System.Runtime.CompilerServices;
using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Zones;

/// <summary>How far each cell is from what the paint can look like under white light, in limits: 1 or more is another color.</summary>
/// <remarks>
/// <para>A cell c is written as body b times the paint's color plus a white reflection w, by least squares. Off is the distance in CIELAB
/// between c and that sum; its limit is 10. Where b is under 0.4 the paint's color is missing; that counts as far as the cell is at least
/// half as light as the paint, since in deep shade a reflection outshines the body.</para>
/// <para>Where the paint has no color of its own (chroma under 10) b cannot be told from w, and only off counts.</para>
/// </remarks>
internal static class BodyDifference
{
    /// <summary>Share of a limit by which the limits are moved to see what hangs on them.</summary>
    internal const float Slack = 0.3f;

    /// <summary>Least chroma at which paint has a color of its own.</summary>
    internal const double LeastChroma = 10.0;

    private const float LimitOff = 10.0f;
    private const float LimitBody = 0.4f;
    private const double LeastLuminance = 0.5;

    internal static Plane Of(Plane red, Plane green, Plane blue, LabPlanes lab, PaintColor paint, PlaneScope scope)
    {
        var fitRed = scope.RentLike(red);
        var fitGreen = scope.RentLike(red);
        var fitBlue = scope.RentLike(red);
        var result = scope.RentLike(red);
        Fit(red, green, blue, paint, fitRed, fitGreen, fitBlue, result);
        var fit = LabPlanes.FromLinear(fitRed, fitGreen, fitBlue);
        AddOff(lab, fit, result.Values);
        foreach (var plane in (ReadOnlySpan<Plane>)[fit.Lightness, fit.AStar, fit.BStar])
        {
            PlaneScope.Keep(plane.Values);
        }

        return result;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Fit(
        Plane red, Plane green, Plane blue, PaintColor paint, Plane fitRed, Plane fitGreen, Plane fitBlue, Plane result)
    {
        var hasColor = paint.Lab.Chroma >= LeastChroma;
        var mean = (paint.Red + paint.Green + paint.Blue) / 3.0;
        var (pr, pg, pb) = ((float)(paint.Red - mean), (float)(paint.Green - mean), (float)(paint.Blue - mean));
        var square = (pr * pr) + (pg * pg) + (pb * pb);
        var least = (float)(LeastLuminance * mean);
        for (var i = 0; i < result.Values.Length; i++)
        {
            var (r, g, b) = (red.Values[i], green.Values[i], blue.Values[i]);

            // Body and white are fitted together; less the means of the channels, white drops out.
            var level = (r + g + b) / 3.0f;
            var body = hasColor ? Math.Max(0.0f, ((r * pr) + (g * pg) + (b * pb)) / square) : 0.0f;
            fitRed.Values[i] = Math.Max(0.0f, level + (body * pr));
            fitGreen.Values[i] = Math.Max(0.0f, level + (body * pg));
            fitBlue.Values[i] = Math.Max(0.0f, level + (body * pb));
            result.Values[i] = hasColor && level >= least ? Math.Max(0.0f, (1.0f - body) / (1.0f - LimitBody)) : 0.0f;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void AddOff(LabPlanes lab, LabPlanes fit, float[] result)
    {
        for (var i = 0; i < result.Length; i++)
        {
            var l = lab.Lightness.Values[i] - fit.Lightness.Values[i];
            var a = lab.AStar.Values[i] - fit.AStar.Values[i];
            var b = lab.BStar.Values[i] - fit.BStar.Values[i];
            result[i] = Math.Max(result[i], MathF.Sqrt((l * l) + (a * a) + (b * b)) / LimitOff);
        }
    }
}
