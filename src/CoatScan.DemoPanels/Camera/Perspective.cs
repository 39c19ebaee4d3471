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

        Warp(image.Red);
        Warp(image.Green);
        Warp(image.Blue);
        foreach (var plane in planes)
        {
            Warp(plane);
        }
    }

    private void Warp(Plane plane)
    {
        var source = (float[])plane.Values.Clone();
        var halfX = 0.5f * (_width - 1);
        var halfY = 0.5f * (_height - 1);
        for (var y = 0; y < _height; y++)
        {
            var v = (y - halfY) / halfY;
            var row = plane.Row(y);
            for (var x = 0; x < _width; x++)
            {
                var u = (x - halfX) / halfX;
                var scale = Zoom / (1f + (_x * u) + (_y * v));
                var px = Math.Clamp(halfX * (1f + (u * scale)), 0f, _width - 1.001f);
                var py = Math.Clamp(halfY * (1f + (v * scale)), 0f, _height - 1.001f);
                var ix = (int)px;
                var iy = (int)py;
                var fx = px - ix;
                var fy = py - iy;
                var at = (iy * _width) + ix;
                var top = source[at] + ((source[at + 1] - source[at]) * fx);
                var bottom = source[at + _width] + ((source[at + _width + 1] - source[at + _width]) * fx);
                row[x] = top + ((bottom - top) * fy);
            }
        }
    }
}
