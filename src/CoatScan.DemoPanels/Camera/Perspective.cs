using System.Buffers;
using System.Numerics;
using CoatScan.DemoPanels.Light;
using Plane = CoatScan.Metrics.Plane;

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

    public void Apply(LinearImage image, params ReadOnlySpan<Plane> planes) =>
        Apply([image.Red, image.Green, image.Blue, .. planes]);

    public void Apply(params ReadOnlySpan<Plane> targets)
    {
        if (IsIdentity)
        {
            return;
        }

        var sources = new float[targets.Length][];
        for (var plane = 0; plane < targets.Length; plane++)
        {
            sources[plane] = ArrayPool<float>.Shared.Rent(_width * _height);
            targets[plane].Values.CopyTo(sources[plane], 0);
        }

        // Whole vectors: what lies beyond the row is not read.
        var padded = _width + Vector<float>.Count - 1;
        padded -= padded % Vector<float>.Count;
        var from = new int[padded];
        var shareX = new float[padded];
        var shareY = new float[padded];
        for (var y = 0; y < _height; y++)
        {
            MapRow(y, from, shareX, shareY);
            for (var plane = 0; plane < targets.Length; plane++)
            {
                Resample(sources[plane], from, shareX, shareY, targets[plane].Row(y));
            }
        }

        Array.ForEach(sources, source => ArrayPool<float>.Shared.Return(source));
    }

    // For each photo pixel the raster pixel at its upper left and the shares of its right and lower neighbors.
    private void MapRow(int y, int[] from, float[] shareX, float[] shareY)
    {
        var halfX = 0.5f * (_width - 1);
        var halfY = 0.5f * (_height - 1);
        var v = (y - halfY) / halfY;
        for (var x = 0; x < from.Length; x += Vector<float>.Count)
        {
            var u = (Vector.ConvertToSingle(Vector<int>.Indices + new Vector<int>(x)) - new Vector<float>(halfX)) * (1f / halfX);
            var scale = new Vector<float>(Zoom) / (new Vector<float>(1f + (_y * v)) + (u * _x));
            var px = Vector.Min(
                new Vector<float>(_width - 1.001f), Vector.Max(Vector<float>.Zero, (Vector<float>.One + (u * scale)) * halfX));
            var py = Vector.Min(
                new Vector<float>(_height - 1.001f), Vector.Max(Vector<float>.Zero, (Vector<float>.One + (scale * v)) * halfY));
            var column = Vector.ConvertToInt32(px);
            var row = Vector.ConvertToInt32(py);
            ((row * _width) + column).CopyTo(from, x);
            (px - Vector.ConvertToSingle(column)).CopyTo(shareX, x);
            (py - Vector.ConvertToSingle(row)).CopyTo(shareY, x);
        }
    }

    private void Resample(
        ReadOnlySpan<float> source, ReadOnlySpan<int> from, ReadOnlySpan<float> shareX, ReadOnlySpan<float> shareY, Span<float> target)
    {
        from = from[..target.Length];
        shareX = shareX[..target.Length];
        shareY = shareY[..target.Length];
        for (var x = 0; x < target.Length; x++)
        {
            var upper = source.Slice(from[x], _width + 2);
            var top = upper[0] + ((upper[1] - upper[0]) * shareX[x]);
            var bottom = upper[^2] + ((upper[^1] - upper[^2]) * shareX[x]);
            target[x] = top + ((bottom - top) * shareY[x]);
        }
    }
}
