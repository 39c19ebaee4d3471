using System.Numerics;
using System.Runtime.CompilerServices;

namespace CoatScan.Metrics.Color;

/// <summary>Planes of CIE L*, a* and b*, D65.</summary>
/// <param name="Lightness">CIE L*, [0, 100].</param>
/// <param name="AStar">CIE a*.</param>
/// <param name="BStar">CIE b*.</param>
public sealed record LabPlanes(Plane Lightness, Plane AStar, Plane BStar)
{
    private const float ThirdOfBits = 1.0f / 3.0f;

    // Two thirds of the bit pattern of 1.0f, less a little so that the error of the first guess is balanced.
    private const float BitsOffset = 709_958_130.0f;

    /// <summary>Converts planes of linear sRGB, within 0.001 of <see cref="CieLab.FromLinear"/> for input in [0, 1].</summary>
    /// <remarks>
    /// <para>Deterministic; each pixel depends on itself alone. Cost: three new planes, O(n), vectorized.</para>
    /// <para>The cube root is a first guess from the exponent bits and two steps of Halley's method.</para>
    /// </remarks>
    /// <exception cref="ArgumentException">The planes differ in size.</exception>
    public static LabPlanes FromLinear(Plane red, Plane green, Plane blue)
    {
        ArgumentNullException.ThrowIfNull(red);
        ArgumentNullException.ThrowIfNull(green);
        ArgumentNullException.ThrowIfNull(blue);
        if (red.Width != green.Width || red.Width != blue.Width || red.Height != green.Height || red.Height != blue.Height)
        {
            throw new ArgumentException("Red, green and blue differ in size.", nameof(green));
        }

        var planes = new LabPlanes(
            Plane.Unfilled(red.Width, red.Height),
            Plane.Unfilled(red.Width, red.Height),
            Plane.Unfilled(red.Width, red.Height));
        planes.ConvertRest(red, green, blue, planes.ConvertWhole(red.Values, green.Values, blue.Values));
        return planes;
    }

    /// <summary>Converts the whole vectors; where the rest starts.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private int ConvertWhole(float[] red, float[] green, float[] blue)
    {
        var (lightness, aStar, bStar) = (Lightness.Values, AStar.Values, BStar.Values);
        var i = 0;
        for (; i <= red.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            Convert(new(red, i), new(green, i), new(blue, i), out var l, out var a, out var b);
            l.CopyTo(lightness, i);
            a.CopyTo(aStar, i);
            b.CopyTo(bStar, i);
        }

        return i;
    }

    // The last few pixels go through the same vector code, padded, so that no pixel depends on its position.
    private void ConvertRest(Plane red, Plane green, Plane blue, int start)
    {
        var count = red.Values.Length - start;
        if (count == 0)
        {
            return;
        }

        Span<float> r = stackalloc float[Vector<float>.Count];
        Span<float> g = stackalloc float[Vector<float>.Count];
        Span<float> b = stackalloc float[Vector<float>.Count];
        red.Values.AsSpan(start).CopyTo(r);
        green.Values.AsSpan(start).CopyTo(g);
        blue.Values.AsSpan(start).CopyTo(b);
        Convert(new(r), new(g), new(b), out var lightness, out var aStar, out var bStar);
        for (var i = 0; i < count; i++)
        {
            Lightness.Values[start + i] = lightness[i];
            AStar.Values[start + i] = aStar[i];
            BStar.Values[start + i] = bStar[i];
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Convert(
        Vector<float> red,
        Vector<float> green,
        Vector<float> blue,
        out Vector<float> lightness,
        out Vector<float> aStar,
        out Vector<float> bStar)
    {
        var white = CieLabWhite.Reciprocal;
        var x = Compress(
            (red * (float)(CieLab.XOfRed * white.X))
            + (green * (float)(CieLab.XOfGreen * white.X))
            + (blue * (float)(CieLab.XOfBlue * white.X)));
        var y = Compress(
            (red * (float)CieLab.RedLuminance)
            + (green * (float)CieLab.GreenLuminance)
            + (blue * (float)CieLab.BlueLuminance));
        var z = Compress(
            (red * (float)(CieLab.ZOfRed * white.Z))
            + (green * (float)(CieLab.ZOfGreen * white.Z))
            + (blue * (float)(CieLab.ZOfBlue * white.Z)));
        lightness = (y * 116.0f) - new Vector<float>(16.0f);
        aStar = (x - y) * 500.0f;
        bStar = (y - z) * 200.0f;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector<float> Compress(Vector<float> ratio)
    {
        var limit = new Vector<float>((float)CieLab.LinearBelow);
        var line = (ratio * (float)(CieLab.Kappa / 116.0)) + new Vector<float>((float)(16.0 / 116.0));
        var t = Vector.Max(ratio, limit);
        var guess = Vector.AsVectorSingle(Vector.ConvertToInt32(
            (Vector.ConvertToSingle(Vector.AsVectorInt32(t)) * ThirdOfBits) + new Vector<float>(BitsOffset)));
        guess = Halley(guess, t);
        guess = Halley(guess, t);
        return Vector.ConditionalSelect(Vector.GreaterThan(ratio, limit), guess, line);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector<float> Halley(Vector<float> guess, Vector<float> t)
    {
        var cube = guess * guess * guess;
        return guess * (cube + t + t) / (cube + cube + t);
    }

    private static class CieLabWhite
    {
        internal static readonly XyzColor Reciprocal =
            new(1.0 / CieLab.White.X, 1.0 / CieLab.White.Y, 1.0 / CieLab.White.Z);
    }
}
