using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Reflection;

/// <summary>Whether the dark side of an edge is the panel's own paint, not a gap, a shadowed strip or a letter.</summary>
/// <remarks>
/// <para>A reflection only adds light, so its dark side shows the paint and goes on: a little and far from the edge it is
/// equally dark, within a factor of 1.6 at two thirds of the places, and at least an eighth of the photo is no brighter than
/// 1.6 times that. A lamp that clips is a patch with paint around it; a clipped area that runs out of the photo is taken for
/// the background.</para>
/// <para>The limits are our own.</para>
/// </remarks>
internal static class EdgeSurroundings
{
    private const int Places = 48;
    private const double SameFactor = 1.6;
    private const double LeastShare = 2.0 / 3.0;
    private const double LeastPaintShare = 0.125;

    // Of the long side: how far away the paint must still be as dark.
    private const double FarShare = 0.06;

    internal static bool IsPaint(Plane lightness, EdgeLine line, double darkLuminance, bool isClipped) =>
        ShareBelow(lightness, Lightness(SameFactor * darkLuminance)) >= LeastPaintShare
        && GoesOn(lightness, line, darkLuminance)
        && (!isClipped || IsPatch(lightness, line, darkLuminance));

    private static double Lightness(double luminance) => CieLab.FromLinear(luminance, luminance, luminance).L;

    private static double ShareBelow(Plane lightness, double limit)
    {
        var count = 0;
        foreach (var value in lightness.Values)
        {
            count += value <= limit ? 1 : 0;
        }

        return (double)count / lightness.Values.Length;
    }

    private static bool GoesOn(Plane lightness, EdgeLine line, double dark)
    {
        var (least, most) = (Lightness(dark / SameFactor), Lightness(dark * SameFactor));
        var far = FarShare * Math.Max(lightness.Width, lightness.Height);
        var (same, seen) = (0, 0);
        for (var i = 0; i < Places; i++)
        {
            var along = (int)((i + 0.5) * line.LengthPx / Places);
            foreach (var away in (ReadOnlySpan<double>)[0.5 * far, far])
            {
                if (At(lightness, line, along, -away) is { } value)
                {
                    seen++;
                    same += value >= least && value <= most ? 1 : 0;
                }
            }
        }

        return seen >= Places && same >= LeastShare * seen;
    }

    private static bool IsPatch(Plane lightness, EdgeLine line, double dark)
    {
        var most = Lightness(SameFactor * SameFactor * dark);
        var ended = 0;
        for (var i = 0; i < Places; i++)
        {
            var along = (int)((i + 0.5) * line.LengthPx / Places);
            for (var away = 2.0; At(lightness, line, along, away) is { } value; away += 2.0)
            {
                if (value <= most)
                {
                    ended++;
                    break;
                }
            }
        }

        return ended >= LeastShare * Places;
    }

    private static float? At(Plane lightness, EdgeLine line, int along, double away)
    {
        var (x, y) = line.At(along, line.RoughPx[along] + away);
        return x >= 0.0 && y >= 0.0 && x < lightness.Width && y < lightness.Height
            ? lightness[(int)x, (int)y]
            : null;
    }
}
