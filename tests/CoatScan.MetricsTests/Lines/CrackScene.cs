using CoatScan.Metrics;

namespace CoatScan.MetricsTests.Lines;

/// <summary>A gray panel with cracks of known length: strokes of one width, a light that falls off, and noise.</summary>
/// <remarks>
/// Even seeds draw separate polylines with branches, odd seeds a lattice with shifted nodes and missing edges. Strokes keep a distance
/// from each other, so that the summed length of their center lines is the length that there is. Edges are blurred by 0.6 px, and the
/// light changes by up to 18 L* over the panel, with noise of 0.2 to 1.2 L*.
/// </remarks>
internal sealed class CrackScene
{
    private const double EdgeSigmaPx = 0.6;

    private readonly List<(double X0, double Y0, double X1, double Y1)> _segments = [];
    private readonly Random _random;
    private readonly int _width;
    private readonly int _height;

    private CrackScene(int seed, int width, int height)
    {
        (_random, _width, _height) = (new Random(7919 * (seed + 1)), width, height);
        StrokePx = Between(1.5, 6.0);
        if (seed % 2 == 0)
        {
            DrawTrees();
        }
        else
        {
            DrawLattice();
        }
    }

    /// <summary>Full width of every stroke, pixels.</summary>
    internal double StrokePx { get; }

    /// <summary>Summed length of the center lines, pixels.</summary>
    internal double LengthPx { get; private set; }

    /// <summary>CIE L*.</summary>
    internal Plane Lightness { get; private set; } = new(1, 1);

    internal PanelPlanes Panel(double? mmPerPx = null)
    {
        var linear = Pattern.Draw(_width, _height, (x, y) => Pattern.Linear(Math.Clamp(Lightness[x, y], 0.0f, 100.0f)));
        return Pattern.Gray(linear, mmPerPx);
    }

    internal static CrackScene Of(int seed, int width = 800, int height = 600)
    {
        var scene = new CrackScene(seed, width, height);
        scene.Render();
        return scene;
    }

    private double Between(double low, double high) => low + ((high - low) * _random.NextDouble());

    private void DrawTrees()
    {
        for (var tree = 0; tree < 9; tree++)
        {
            Grow(Between(60, _width - 60), Between(60, _height - 60), Between(0, 2 * Math.PI), 0);
        }
    }

    private void Grow(double x, double y, double angle, int depth)
    {
        var steps = _random.Next(4, 12);
        var own = _segments.Count;
        for (var step = 0; step < steps; step++)
        {
            angle += Between(-0.45, 0.45);
            var length = Between(18, 40);
            var (endX, endY) = (x + (length * Math.Cos(angle)), y + (length * Math.Sin(angle)));
            var skip = step == 0 ? (x, y) : ((double, double)?)null;
            if (!IsFree(x, y, endX, endY, own, skip))
            {
                return;
            }

            Add(x, y, endX, endY);
            (x, y) = (endX, endY);
            if (depth < 2 && step > 0 && step < steps - 1 && _random.NextDouble() < 0.25)
            {
                Grow(x, y, angle + (_random.Next(2) == 0 ? 1.2 : -1.2), depth + 1);
            }
        }
    }

    // Far from every other stroke, but for the point it grows from and the steps it has just made.
    private bool IsFree(double x0, double y0, double x1, double y1, int own, (double X, double Y)? root)
    {
        var margin = (2.0 * StrokePx) + 8.0;
        for (var t = 0.0; t <= 1.0; t += 0.1)
        {
            var (x, y) = (x0 + (t * (x1 - x0)), y0 + (t * (y1 - y0)));
            if (x < 20 || y < 20 || x > _width - 20 || y > _height - 20)
            {
                return false;
            }

            if (Math.Sqrt(Math.Pow(x - x0, 2) + Math.Pow(y - y0, 2)) < 0.7 * margin)
            {
                continue;
            }

            for (var i = 0; i < _segments.Count; i++)
            {
                var isOwn = i >= own && i >= _segments.Count - 1;
                if (!isOwn && Distance(_segments[i], x, y) < (root is null ? margin : 0.6 * margin))
                {
                    return false;
                }
            }
        }

        return true;
    }

    private void DrawLattice()
    {
        var spacing = Between(60, 120);
        var (across, down) = ((int)((_width - 60) / spacing), (int)((_height - 60) / spacing));
        var nodes = new (double X, double Y)[across + 1, down + 1];
        for (var i = 0; i <= across; i++)
        {
            for (var j = 0; j <= down; j++)
            {
                nodes[i, j] = (30 + ((i + Between(-0.2, 0.2)) * spacing), 30 + ((j + Between(-0.2, 0.2)) * spacing));
                nodes[i, j] = (Math.Clamp(nodes[i, j].X, 20, _width - 20), Math.Clamp(nodes[i, j].Y, 20, _height - 20));
            }
        }

        for (var i = 0; i <= across; i++)
        {
            for (var j = 0; j <= down; j++)
            {
                Join(nodes[i, j], i < across ? nodes[i + 1, j] : null);
                Join(nodes[i, j], j < down ? nodes[i, j + 1] : null);
            }
        }
    }

    // In three steps with a little jitter, left out now and then.
    private void Join((double X, double Y) from, (double X, double Y)? to)
    {
        if (to is not { } end || _random.NextDouble() < 0.3)
        {
            return;
        }

        var (x, y) = from;
        for (var step = 1; step <= 3; step++)
        {
            var jitter = step < 3 ? Between(-3.0, 3.0) : 0.0;
            var length = Math.Sqrt(Math.Pow(end.X - from.X, 2) + Math.Pow(end.Y - from.Y, 2));
            var nextX = from.X + ((end.X - from.X) * step / 3.0) - (jitter * (end.Y - from.Y) / length);
            var nextY = from.Y + ((end.Y - from.Y) * step / 3.0) + (jitter * (end.X - from.X) / length);
            Add(x, y, nextX, nextY);
            (x, y) = (nextX, nextY);
        }
    }

    private void Add(double x0, double y0, double x1, double y1)
    {
        _segments.Add((x0, y0, x1, y1));
        LengthPx += Math.Sqrt(Math.Pow(x1 - x0, 2) + Math.Pow(y1 - y0, 2));
    }

    private void Render()
    {
        var distance = NearestStroke();
        var paint = Between(35, 65);
        var depth = Between(10, 30) * (_random.NextDouble() < 0.2 ? -1 : 1);
        var (slopeX, slopeY, noise) = (Between(-12, 12), Between(-12, 12), Between(0.2, 1.2));
        var (wave, phase) = (Between(150, 400), Between(0, 6));
        Lightness = Pattern.Draw(_width, _height, (x, y) =>
        {
            var d = distance[x, y];
            var cover = Below(((StrokePx / 2.0) - d) / EdgeSigmaPx) + Below(((StrokePx / 2.0) + d) / EdgeSigmaPx) - 1.0;
            var light = (slopeX * x / _width) + (slopeY * y / _height) + (3.0 * Math.Sin((2.0 * Math.PI * (x + (0.5 * y)) / wave) + phase));
            return paint + light - (depth * cover) + (noise * Pattern.Normal(_random));
        });
    }

    private Plane NearestStroke()
    {
        var nearest = Pattern.Draw(_width, _height, (_, _) => 1e3);
        foreach (var segment in _segments)
        {
            var reach = (int)StrokePx + 6;
            for (var y = Math.Max(0, (int)Math.Min(segment.Y0, segment.Y1) - reach); y < Math.Min(_height, Math.Max(segment.Y0, segment.Y1) + reach); y++)
            {
                for (var x = Math.Max(0, (int)Math.Min(segment.X0, segment.X1) - reach); x < Math.Min(_width, Math.Max(segment.X0, segment.X1) + reach); x++)
                {
                    nearest[x, y] = Math.Min(nearest[x, y], (float)Distance(segment, x, y));
                }
            }
        }

        return nearest;
    }

    private static double Distance((double X0, double Y0, double X1, double Y1) segment, double x, double y)
    {
        var (dx, dy) = (segment.X1 - segment.X0, segment.Y1 - segment.Y0);
        var t = Math.Clamp((((x - segment.X0) * dx) + ((y - segment.Y0) * dy)) / ((dx * dx) + (dy * dy)), 0.0, 1.0);
        return Math.Sqrt(Math.Pow(x - segment.X0 - (t * dx), 2) + Math.Pow(y - segment.Y0 - (t * dy), 2));
    }

    // Normal distribution function, Abramowitz and Stegun 26.2.18 (error under 2.5e-4).
    private static double Below(double z)
    {
        var a = Math.Abs(z);
        var tail = 0.5 * Math.Pow(1.0 + (a * (0.196854 + (a * (0.115194 + (a * (0.000344 + (a * 0.019527))))))), -4.0);
        return z >= 0.0 ? 1.0 - tail : tail;
    }
}
