using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Surface;

/// <summary>Drawn lines: scratches, cracks, letters.</summary>
internal static class Stroke
{
    /// <summary>Raises <paramref name="coverage"/> to the stroke's coverage, [0, opacity], with soft edges one pixel wide.</summary>
    public static void Draw(Plane coverage, ReadOnlySpan<StrokePoint> points, float opacity = 1f)
    {
        for (var i = 0; i + 1 < points.Length; i++)
        {
            Segment(coverage, points[i], points[i + 1], opacity);
        }
    }

    /// <summary>A curved line of given length through a center; its width tapers to both ends.</summary>
    public static StrokePoint[] Arc(
        PanelRandom random, float centerX, float centerY, float lengthPx, float angle, float turn, float widthPx, float wobblePx)
    {
        var count = Math.Clamp((int)(lengthPx / 7f), 6, 160);
        var points = new StrokePoint[count];
        float x = 0f, y = 0f, sumX = 0f, sumY = 0f, wander = 0f;
        for (var i = 0; i < count; i++)
        {
            var t = (i / (count - 1f)) - 0.5f;
            wander = (wander * 0.9f) + (random.Gaussian() * wobblePx);
            var heading = angle + (turn * t);
            x += MathF.Cos(heading) * lengthPx / count;
            y += MathF.Sin(heading) * lengthPx / count;
            var taper = 1f - MathF.Pow(MathF.Abs(2f * t), 3f);
            points[i] = new StrokePoint(
                x - (MathF.Sin(heading) * wander), y + (MathF.Cos(heading) * wander), 0.5f * widthPx * (0.35f + (0.65f * taper)));
            sumX += x;
            sumY += y;
        }

        for (var i = 0; i < count; i++)
        {
            points[i] = points[i] with { X = points[i].X - (sumX / count) + centerX, Y = points[i].Y - (sumY / count) + centerY };
        }

        return points;
    }

    private static void Segment(Plane coverage, StrokePoint a, StrokePoint b, float opacity)
    {
        var reach = MathF.Max(a.HalfWidthPx, b.HalfWidthPx) + 1f;
        var x0 = Math.Max(0, (int)(MathF.Min(a.X, b.X) - reach));
        var x1 = Math.Min(coverage.Width - 1, (int)(MathF.Max(a.X, b.X) + reach));
        var y0 = Math.Max(0, (int)(MathF.Min(a.Y, b.Y) - reach));
        var y1 = Math.Min(coverage.Height - 1, (int)(MathF.Max(a.Y, b.Y) + reach));
        var dx = b.X - a.X;
        var dy = b.Y - a.Y;
        var inverse = 1f / MathF.Max(1e-6f, (dx * dx) + (dy * dy));
        for (var y = y0; y <= y1; y++)
        {
            var row = coverage.Row(y);
            for (var x = x0; x <= x1; x++)
            {
                var t = Math.Clamp((((x - a.X) * dx) + ((y - a.Y) * dy)) * inverse, 0f, 1f);
                var px = x - a.X - (t * dx);
                var py = y - a.Y - (t * dy);
                var half = Ramp.Mix(a.HalfWidthPx, b.HalfWidthPx, t);
                var distance = MathF.Sqrt((px * px) + (py * py));

                // A line thinner than a pixel keeps its width as opacity.
                var value = Math.Clamp(half + 0.5f - distance, 0f, MathF.Min(1f, 2f * half)) * opacity;
                if (value > row[x])
                {
                    row[x] = value;
                }
            }
        }
    }
}
