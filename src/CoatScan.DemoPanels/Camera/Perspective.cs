using CoatScan.DemoPanels.Light;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Camera;

/// <summary>Where each photo pixel looks on the panel: a keystone that keeps the center and never leaves the panel's raster.</summary>
internal sealed class Perspective
{
    private readonly int _width;
    private readonly int _height;
    private readonly float _x;
    private readonly float _y;

    public Perspective(int width, int height, float x, float y)
    {
        _width = width;
        _height = height;
        _x = x;
        _y = y;

        // The corner that is magnified least must still fall on the raster.
        Zoom = 1f - MathF.Abs(x) - MathF.Abs(y);
    }

    /// <summary>Raster pixels per photo pixel at the center of the photo.</summary>
    public float Zoom { get; }

    public bool IsIdentity => _x == 0f && _y == 0f;

    public void Apply(LinearImage image, params ReadOnlySpan<Plane> planes)
    {
        if (IsIdentity)
        {
            return;
        }

        var targets = new List<Plane> { image.Red, image.Green, image.Blue };
        targets.AddRange(planes);
        var sources = targets.ConvertAll(plane => (float[])plane.Values.Clone());
        var from = new int[_width];
        var shareX = new float[_width];
        var shareY = new float[_width];
        for (var y = 0; y < _height; y++)
        {
            MapRow(y, from, shareX, shareY);
            for (var plane = 0; plane < targets.Count; plane++)
            {
                Resample(sources[plane], from, shareX, shareY, targets[plane].Row(y));
            }
        }
    }

    // For each photo pixel the raster pixel at its upper left and the shares of its right and lower neighbors.
    private void MapRow(int y, int[] from, float[] shareX, float[] shareY)
    {
        var halfX = 0.5f * (_width - 1);
        var halfY = 0.5f * (_height - 1);
        var v = (y - halfY) / halfY;
        for (var x = 0; x < _width; x++)
        {
            var u = (x - halfX) / halfX;
            var scale = Zoom / (1f + (_x * u) + (_y * v));
            var px = Math.Clamp(halfX * (1f + (u * scale)), 0f, _width - 1.001f);
            var py = Math.Clamp(halfY * (1f + (v * scale)), 0f, _height - 1.001f);
            from[x] = ((int)py * _width) + (int)px;
            shareX[x] = px - (int)px;
            shareY[x] = py - (int)py;
        }
    }

    private void Resample(float[] source, int[] from, float[] shareX, float[] shareY, Span<float> target)
    {
        for (var x = 0; x < target.Length; x++)
        {
            var i = from[x];
            var top = source[i] + ((source[i + 1] - source[i]) * shareX[x]);
            var bottom = source[i + _width] + ((source[i + _width + 1] - source[i + _width]) * shareX[x]);
            target[x] = top + ((bottom - top) * shareY[x]);
        }
    }
}
