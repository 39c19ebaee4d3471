using System.Runtime.CompilerServices;
using CoatScan.Metrics.Color;

namespace CoatScan.Metrics.Reflection;

/// <summary>Linear luminance across an edge: one row of samples, 1 px apart, for each pixel of its length.</summary>
/// <remarks>
/// Sampled from CIE L* by linear interpolation and turned into luminance: of an edge blurred in linear light, half of the
/// step lies where the edge is. Rows that leave the plane are marked.
/// </remarks>
internal sealed class EdgeStrip
{
    // CIE L* of luminance 216/24389.
    private const float LinearPartEnd = 8.0f;

    private readonly float[] _luminance;
    private readonly bool[] _isInside;

    internal EdgeStrip(Plane lightness, EdgeLine line, int reachPx)
    {
        Line = line;
        ReachPx = reachPx;
        _luminance = new float[line.LengthPx * SamplesPerRow];
        _isInside = new bool[line.LengthPx];
        for (var row = 0; row < line.LengthPx; row++)
        {
            _isInside[row] = Fill(lightness, row);
            InterpolationVariance += VarianceOf(row) / line.LengthPx;
        }
    }

    internal EdgeLine Line { get; }

    /// <summary>Samples on either side of the rough place of the edge.</summary>
    internal int ReachPx { get; }

    internal int SamplesPerRow => (2 * ReachPx) + 1;

    internal int Rows => _isInside.Length;

    /// <summary>Variance across the edge that linear interpolation adds on average, square pixels.</summary>
    /// <remarks>A sample a share f of the way between two pixels is their mixture: variance f (1 - f) along either
    /// axis.</remarks>
    internal double InterpolationVariance { get; }

    internal ReadOnlySpan<float> Row(int row) => _luminance.AsSpan(row * SamplesPerRow, SamplesPerRow);

    internal bool IsInside(int row) => _isInside[row];

    private bool Fill(Plane lightness, int row)
    {
        var values = _luminance.AsSpan(row * SamplesPerRow, SamplesPerRow);
        var rough = Line.RoughPx[row];
        var (x, y) = Line.At(row, rough - ReachPx);
        var (endX, endY) = Line.At(row, rough + ReachPx);
        if (!Fits(lightness, x, y) || !Fits(lightness, endX, endY))
        {
            return false;
        }

        Sample(
            lightness.Values,
            lightness.Width,
            ((float)x, (float)y),
            ((float)((endX - x) / (2 * ReachPx)), (float)((endY - y) / (2 * ReachPx))),
            values);
        return true;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Sample(
        float[] lightness, int width, (float X, float Y) start, (float X, float Y) step, Span<float> values)
    {
        for (var i = 0; i < values.Length; i++)
        {
            var (x, y) = (start.X + (i * step.X), start.Y + (i * step.Y));
            var (left, top) = ((int)x, (int)y);
            var (right, down) = (x - left, y - top);
            var at = (top * width) + left;
            var above = lightness[at] + (right * (lightness[at + 1] - lightness[at]));
            var below = lightness[at + width] + (right * (lightness[at + width + 1] - lightness[at + width]));
            values[i] = Luminance(above + (down * (below - above)));
        }
    }

    private double VarianceOf(int row)
    {
        var (x, y) = Line.At(row, Line.RoughPx[row]);
        var (nextX, nextY) = Line.At(row, Line.RoughPx[row] + 1.0);
        var (right, down) = (x - Math.Floor(x), y - Math.Floor(y));
        return (right * (1.0 - right) * (nextX - x) * (nextX - x)) + (down * (1.0 - down) * (nextY - y) * (nextY - y));
    }

    private static bool Fits(Plane plane, double x, double y) =>
        x >= 1.0 && y >= 1.0 && x < plane.Width - 2 && y < plane.Height - 2;

    // Inverse of CIE L*, luminance of white 1.
    private static float Luminance(float lightness)
    {
        var root = (lightness + 16.0f) * (1.0f / 116.0f);
        return lightness > LinearPartEnd ? root * root * root : lightness * (float)(1.0 / CieLab.Kappa);
    }
}
