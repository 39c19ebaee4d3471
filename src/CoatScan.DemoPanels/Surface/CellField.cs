using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Surface;

/// <summary>Irregular cells (Voronoi cells of jittered lattice points): distance to the nearest border, and which cell.</summary>
internal sealed class CellField
{
    private CellField(Plane borderDistancePx, int[] cell)
    {
        BorderDistancePx = borderDistancePx;
        Cell = cell;
    }

    /// <summary>Distance to the border between the two nearest cells, pixels.</summary>
    public Plane BorderDistancePx { get; }

    /// <summary>A number naming each pixel's cell; equal numbers may return far apart.</summary>
    public int[] Cell { get; }

    /// <param name="random">Source of the layout.</param>
    /// <param name="width">Pixels.</param>
    /// <param name="height">Pixels.</param>
    /// <param name="cellPx">Mean cell size, pixels.</param>
    /// <param name="aspect">How much longer than wide the cells are.</param>
    /// <param name="angle">Direction of their long axis, radians.</param>
    /// <param name="bendPx">How far borders wander off straight lines.</param>
    public static CellField Build(
        PanelRandom random, int width, int height, float cellPx, float aspect, float angle, float bendPx)
    {
        const int Period = 64;
        var points = new float[Period * Period * 2];
        for (var i = 0; i < points.Length; i++)
        {
            points[i] = random.Uniform(0.02f, 0.98f);
        }

        var bendX = Noise.Fractal(random, width, height, MathF.Max(3f, cellPx * 0.5f), 3, 0.6f);
        var bendY = Noise.Fractal(random, width, height, MathF.Max(3f, cellPx * 0.5f), 3, 0.6f);
        var distance = new Plane(width, height);
        var cell = new int[width * height];
        var cos = MathF.Cos(angle);
        var sin = MathF.Sin(angle);
        var scaleU = 1f / (cellPx * MathF.Sqrt(aspect));
        var scaleV = MathF.Sqrt(aspect) / cellPx;
        var offset = random.Uniform(100f, 200f);
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var at = (y * width) + x;
                var px = x + (bendX.Values[at] * bendPx);
                var py = y + (bendY.Values[at] * bendPx);
                var u = (((px * cos) + (py * sin)) * scaleU) + offset;
                var v = (((py * cos) - (px * sin)) * scaleV) + offset;
                distance.Values[at] = Nearest(points, Period, u, v, out cell[at]) * cellPx;
            }
        }

        return new CellField(distance, cell);
    }

    private static float Nearest(float[] points, int period, float u, float v, out int cell)
    {
        var baseU = (int)MathF.Floor(u);
        var baseV = (int)MathF.Floor(v);
        float best = float.MaxValue, second = float.MaxValue, bestU = 0f, bestV = 0f, secondU = 0f, secondV = 0f;
        cell = 0;
        for (var j = baseV - 1; j <= baseV + 1; j++)
        {
            for (var i = baseU - 1; i <= baseU + 1; i++)
            {
                var index = ((j & (period - 1)) * period) + (i & (period - 1));
                var du = i + points[2 * index] - u;
                var dv = j + points[(2 * index) + 1] - v;
                var d = (du * du) + (dv * dv);
                if (d < best)
                {
                    (second, secondU, secondV) = (best, bestU, bestV);
                    (best, bestU, bestV, cell) = (d, du, dv, index);
                }
                else if (d < second)
                {
                    (second, secondU, secondV) = (d, du, dv);
                }
            }
        }

        // Distance to the line half way between the two nearest points.
        var gap = MathF.Sqrt(((secondU - bestU) * (secondU - bestU)) + ((secondV - bestV) * (secondV - bestV)));
        return (second - best) / (2f * MathF.Max(gap, 1e-4f));
    }
}
