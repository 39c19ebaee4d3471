using System.Numerics;
using System.Runtime.InteropServices;
using Plane = CoatScan.Metrics.Plane;

namespace CoatScan.DemoPanels.Camera;

/// <summary>Blurs of the optical path.</summary>
internal static class Optics
{
    /// <summary>Overwrites <paramref name="target"/>, another plane of the same size.</summary>
    public static void Gaussian(Plane source, float sigmaPx, Plane target)
    {
        if (sigmaPx < 0.2f)
        {
            source.Values.CopyTo(target.Values, 0);
            return;
        }

        var radius = (int)MathF.Ceiling(2.5f * sigmaPx);
        var kernel = new float[radius + 1];
        var sum = 0f;
        for (var i = 0; i <= radius; i++)
        {
            kernel[i] = MathF.Exp(-0.5f * i * i / (sigmaPx * sigmaPx));
            sum += i == 0 ? kernel[i] : 2f * kernel[i];
        }

        for (var i = 0; i <= radius; i++)
        {
            kernel[i] /= sum;
        }

        Columns(source, target, kernel);
        Rows(target, kernel);
    }

    /// <summary>Mean along a short straight path: the camera moved.</summary>
    public static Plane Smear(Plane source, float lengthPx, float angle)
    {
        var result = new Plane(source.Width, source.Height);
        var steps = Math.Max(2, (int)MathF.Ceiling(lengthPx));
        for (var step = 0; step < steps; step++)
        {
            var along = ((step / (steps - 1f)) - 0.5f) * lengthPx;
            var dx = (int)MathF.Round(along * MathF.Cos(angle));
            var dy = (int)MathF.Round(along * MathF.Sin(angle));
            for (var y = 0; y < source.Height; y++)
            {
                var from = source.Row(Math.Clamp(y + dy, 0, source.Height - 1));
                var to = result.Row(y);
                for (var x = 0; x < to.Length; x++)
                {
                    to[x] += from[Math.Clamp(x + dx, 0, to.Length - 1)] / steps;
                }
            }
        }

        return result;
    }

    private static void Columns(Plane from, Plane to, float[] kernel)
    {
        for (var y = 0; y < from.Height; y++)
        {
            var output = to.Row(y);
            Scale(from.Row(y), kernel[0], output);
            for (var i = 1; i < kernel.Length; i++)
            {
                AddPair(from.Row(Math.Max(0, y - i)), from.Row(Math.Min(from.Height - 1, y + i)), kernel[i], output);
            }
        }
    }

    private static void Rows(Plane plane, float[] kernel)
    {
        var reach = kernel.Length - 1;
        var width = plane.Width;
        var padded = new float[width + (2 * reach)];
        for (var y = 0; y < plane.Height; y++)
        {
            var row = plane.Row(y);
            row.CopyTo(padded.AsSpan(reach));
            padded.AsSpan(0, reach).Fill(row[0]);
            padded.AsSpan(reach + width).Fill(row[^1]);
            Scale(padded.AsSpan(reach, width), kernel[0], row);
            for (var i = 1; i <= reach; i++)
            {
                AddPair(padded.AsSpan(reach - i, width), padded.AsSpan(reach + i, width), kernel[i], row);
            }
        }
    }

    private static void Scale(ReadOnlySpan<float> source, float factor, Span<float> target)
    {
        var wideSource = MemoryMarshal.Cast<float, Vector<float>>(source);
        var wideTarget = MemoryMarshal.Cast<float, Vector<float>>(target);
        for (var i = 0; i < wideTarget.Length; i++)
        {
            wideTarget[i] = wideSource[i] * factor;
        }

        for (var i = wideTarget.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] = source[i] * factor;
        }
    }

    // target += factor * (a + b), as wide as the processor allows.
    private static void AddPair(ReadOnlySpan<float> a, ReadOnlySpan<float> b, float factor, Span<float> target)
    {
        var wideA = MemoryMarshal.Cast<float, Vector<float>>(a);
        var wideB = MemoryMarshal.Cast<float, Vector<float>>(b);
        var wideTarget = MemoryMarshal.Cast<float, Vector<float>>(target);
        var factors = new Vector<float>(factor);
        for (var i = 0; i < wideTarget.Length; i++)
        {
            wideTarget[i] += (wideA[i] + wideB[i]) * factors;
        }

        for (var i = wideTarget.Length * Vector<float>.Count; i < target.Length; i++)
        {
            target[i] += (a[i] + b[i]) * factor;
        }
    }
}
