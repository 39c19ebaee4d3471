using System.Buffers;
using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Marks;

/// <summary>Finds compact marks that are darker or brighter than the paint around them.</summary>
/// <remarks>
/// <para>A pixel belongs to a mark where its lightness differs from the local background by more than 3 L* and by more than four
/// times the local scatter, so that texture is not taken for marks. Connected pixels of one sign make a mark if they are at
/// least 4 px, compact (axes up to 3:1, filled), clear of the frame and no larger than a tile of the background.</para>
/// <para>The area is counted at half of the mark's contrast, which is the true area of a blurred disk.</para>
/// <para>Cost: O(n) time, one flag plane. Deterministic. Source: half-contrast area and the limits are our own choices.</para>
/// </remarks>
internal static class SpotFinder
{
    private const float LeastContrast = 3.0f;
    private const float ScatterMultiple = 4.0f;
    private const int LeastAreaPx = 4;
    private const double LargestAxisRatio = 3.0;
    private const double LeastFilled = 0.35;

    internal static List<Mark> Find(Plane lightness, bool[] clipped)
    {
        var background = new LocalBackground(lightness, 0.0f, 100.0f);
        var marks = new List<Mark>();
        var dark = ArrayPool<bool>.Shared.Rent(clipped.Length);
        var bright = ArrayPool<bool>.Shared.Rent(clipped.Length);
        try
        {
            Flag(lightness, clipped, background, dark, bright);
            AddMarks(dark.AsSpan(0, clipped.Length), lightness, background, -1.0f, marks);
            AddMarks(bright.AsSpan(0, clipped.Length), lightness, background, 1.0f, marks);
        }
        finally
        {
            ArrayPool<bool>.Shared.Return(dark);
            ArrayPool<bool>.Shared.Return(bright);
        }

        marks.Sort(LargestFirst);
        return marks;
    }

    private static int LargestFirst(Mark first, Mark second)
    {
        var byArea = second.AreaPx.CompareTo(first.AreaPx);
        var byRow = byArea != 0 ? byArea : first.StartYPx.CompareTo(second.StartYPx);
        return byRow != 0 ? byRow : first.StartXPx.CompareTo(second.StartXPx);
    }

    private static void Flag(
        Plane lightness, bool[] clipped, LocalBackground background, bool[] dark, bool[] bright)
    {
        var width = lightness.Width;
        var median = new float[width];
        var scatter = new float[width];
        for (var y = 0; y < lightness.Height; y++)
        {
            background.FillRow(y, median, scatter);
            FlagRow(
                lightness.Row(y),
                clipped.AsSpan(y * width, width),
                median,
                scatter,
                dark.AsSpan(y * width, width),
                bright.AsSpan(y * width, width));
        }
    }

    // Flags are bytes: the comparisons of four vectors of pixels are narrowed to one vector of flags.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void FlagRow(
        ReadOnlySpan<float> row,
        ReadOnlySpan<bool> lost,
        ReadOnlySpan<float> median,
        ReadOnlySpan<float> scatter,
        Span<bool> dark,
        Span<bool> bright)
    {
        var kept = MemoryMarshal.AsBytes(lost);
        var darkBytes = MemoryMarshal.AsBytes(dark);
        var brightBytes = MemoryMarshal.AsBytes(bright);
        var step = Vector<float>.Count;
        var x = 0;
        for (; x <= row.Length - Vector<byte>.Count; x += Vector<byte>.Count)
        {
            Compare(row, median, scatter, x, out var dark0, out var bright0);
            Compare(row, median, scatter, x + step, out var dark1, out var bright1);
            Compare(row, median, scatter, x + (2 * step), out var dark2, out var bright2);
            Compare(row, median, scatter, x + (3 * step), out var dark3, out var bright3);
            var usable = Vector.Equals(new Vector<byte>(kept[x..]), Vector<byte>.Zero) & Vector<byte>.One;
            (ToBytes(dark0, dark1, dark2, dark3) & usable).CopyTo(darkBytes[x..]);
            (ToBytes(bright0, bright1, bright2, bright3) & usable).CopyTo(brightBytes[x..]);
        }

        for (; x < row.Length; x++)
        {
            var contrast = row[x] - median[x];
            var limit = Math.Max(LeastContrast, ScatterMultiple * scatter[x]);
            dark[x] = contrast < -limit & !lost[x];
            bright[x] = contrast > limit & !lost[x];
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Compare(
        ReadOnlySpan<float> row,
        ReadOnlySpan<float> median,
        ReadOnlySpan<float> scatter,
        int x,
        out Vector<int> dark,
        out Vector<int> bright)
    {
        var contrast = new Vector<float>(row[x..]) - new Vector<float>(median[x..]);
        var limit = Vector.Max(
            new Vector<float>(LeastContrast), ScatterMultiple * new Vector<float>(scatter[x..]));
        dark = Vector.LessThan(contrast, -limit);
        bright = Vector.GreaterThan(contrast, limit);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector<byte> ToBytes(Vector<int> first, Vector<int> second, Vector<int> third, Vector<int> fourth) =>
        Vector.AsVectorByte(Vector.Narrow(Vector.Narrow(first, second), Vector.Narrow(third, fourth)));

    private static void AddMarks(
        ReadOnlySpan<bool> flags, Plane lightness, LocalBackground background, float sign, List<Mark> marks)
    {
        var found = ConnectedComponents.Find(flags, lightness.Width, lightness.Height, Connectivity.Eight);
        var contrasts = new List<float>?[found.Components.Count];
        for (var i = 0; i < contrasts.Length; i++)
        {
            contrasts[i] = IsCompact(found.Components[i], lightness, background.TilePx) ? [] : null;
        }

        foreach (var run in found.Runs)
        {
            if (contrasts[run.Component] is not { } list)
            {
                continue;
            }

            for (var x = run.StartX; x < run.EndX; x++)
            {
                list.Add(sign * (lightness[x, run.Y] - background.MedianAt(x, run.Y)));
            }
        }

        for (var i = 0; i < contrasts.Length; i++)
        {
            if (contrasts[i] is { } list)
            {
                marks.Add(ToMark(found.Components[i], list, sign));
            }
        }
    }

    private static bool IsCompact(Component component, Plane lightness, int largestPx)
    {
        if (component.AreaPx < LeastAreaPx
            || component.StartX == 0 || component.StartY == 0
            || component.EndX == lightness.Width || component.EndY == lightness.Height
            || Math.Max(component.EndX - component.StartX, component.EndY - component.StartY) > largestPx)
        {
            return false;
        }

        var (major, minor) = component.Axes();
        return major <= LargestAxisRatio * minor
            && component.AreaPx >= LeastFilled * Math.PI / 4.0 * major * minor;
    }

    // The 90th percentile stands for the mark's own contrast: one noisy pixel does not shrink the area.
    private static Mark ToMark(Component component, List<float> contrasts, float sign)
    {
        contrasts.Sort();
        var contrast = contrasts[(int)(0.9 * (contrasts.Count - 1))];
        var below = contrasts.BinarySearch(0.5f * contrast);
        var area = contrasts.Count - (below >= 0 ? below : ~below);
        return new(
            component.StartX, component.StartY, component.EndX, component.EndY, Math.Max(area, 1), sign * contrast);
    }
}
