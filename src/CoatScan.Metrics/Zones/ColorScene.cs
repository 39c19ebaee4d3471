using System.Runtime.CompilerServices;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Zones;

/// <summary>A panel averaged over 2 x 2 pixels in linear light, with its CIELAB: where a color is judged, not a pixel.</summary>
/// <remarks>
/// Photos store color at half of their resolution, and averages of linear light mix as light does. An odd last row or column is left
/// out. A cell is clipped if one of its pixels is. The samples are lent by a scope, but for CIELAB, which <see cref="GiveBack"/> returns.
/// </remarks>
internal sealed class ColorScene
{
    internal const int CellPx = 2;

    private ColorScene(Plane red, Plane green, Plane blue, bool[] clipped)
    {
        (Red, Green, Blue, Clipped) = (red, green, blue, clipped);
        Lab = LabPlanes.FromLinear(red, green, blue);
    }

    internal Plane Red { get; }

    internal Plane Green { get; }

    internal Plane Blue { get; }

    internal LabPlanes Lab { get; }

    internal bool[] Clipped { get; }

    internal int Width => Red.Width;

    internal int Height => Red.Height;

    internal static ColorScene Of(PanelPlanes panel, PlaneScope scope)
    {
        var (width, height) = (Math.Max(1, panel.Width / CellPx), Math.Max(1, panel.Height / CellPx));
        var clipped = new bool[width * height];
        for (var y = 0; y < height; y++)
        {
            var (upper, lower) = (2 * y * panel.Width, Math.Min((2 * y) + 1, panel.Height - 1) * panel.Width);
            Join(panel.Clipped.AsSpan(upper, panel.Width), panel.Clipped.AsSpan(lower, panel.Width), clipped.AsSpan(y * width, width));
        }

        return new(Halve(panel.Red, scope), Halve(panel.Green, scope), Halve(panel.Blue, scope), clipped);
    }

    internal void GiveBack()
    {
        PlaneScope.Keep(Lab.Lightness.Values);
        PlaneScope.Keep(Lab.AStar.Values);
        PlaneScope.Keep(Lab.BStar.Values);
    }

    private static Plane Halve(Plane source, PlaneScope scope)
    {
        var target = scope.Rent(Math.Max(1, source.Width / CellPx), Math.Max(1, source.Height / CellPx));
        PixelHalving.Apply(source, target);
        return target;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Join(ReadOnlySpan<bool> upper, ReadOnlySpan<bool> lower, Span<bool> target)
    {
        if (!upper.Contains(true) && !lower.Contains(true))
        {
            return;
        }

        for (var x = 0; x < target.Length; x++)
        {
            var right = Math.Min((2 * x) + 1, upper.Length - 1);
            target[x] = upper[2 * x] | upper[right] | lower[2 * x] | lower[right];
        }
    }
}
