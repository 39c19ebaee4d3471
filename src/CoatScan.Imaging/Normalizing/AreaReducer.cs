using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using Plane = CoatScan.Metrics.Plane;

namespace CoatScan.Imaging.Normalizing;

/// <summary>Reduces a photo to working size by averaging area in linear light, row by row.</summary>
/// <remarks>
/// <para>Light adds in linear values only: an average of the stored values would darken fine bright marks. Each working pixel is the
/// mean of exactly the area that it covers, so there is no aliasing beyond that of a box and no pixel counts twice.</para>
/// <para>Never enlarges. Both axes are rounded to whole pixels, so their scales differ by at most half a pixel over the width.</para>
/// <para>Memory: the planes and three rows; the photo at full size exists only as 8-bit pixels.</para>
/// </remarks>
internal static class AreaReducer
{
    /// <summary>Reduces to at most <paramref name="maxPixels"/> pixels.</summary>
    public static ReducedPhoto Reduce(DecodedPhoto photo, double maxPixels, CancellationToken cancellationToken)
    {
        var (width, height) = WorkingSize(photo.StoredWidthPx, photo.StoredHeightPx, maxPixels);
        var columns = new AxisMap(photo.StoredWidthPx, width);
        var rows = new AxisMap(photo.StoredHeightPx, height);
        var target = new Target(OrientedGrid.For(width, height, photo.Orientation), width, 1 / (columns.PxPerCell * rows.PxPerCell));
        var line = new float[3 * width];
        var sums = new float[3 * width];
        var lineClips = new byte[width];
        var clips = new byte[width];
        int y = 0;
        for (int row = 0; row < height; row++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            for (; y < rows.Boundary[row]; y++)
            {
                ReduceRow(photo.StoredRow(y), photo.ColorSpace, columns, line, lineClips);
                Add(sums, line, 1);
                Merge(clips, lineClips);
            }

            ReduceRow(photo.StoredRow(y), photo.ColorSpace, columns, line, lineClips);
            float share = rows.Share[row];
            Add(sums, line, share);
            Merge(clips, lineClips);
            target.Write(row, sums, clips);
            y++;

            // The rest of the row on the border begins the next sum.
            float rest = 1 - share;
            sums.AsSpan().Clear();
            clips.AsSpan().Clear();
            if (rest > 0)
            {
                Add(sums, line, rest);
                Merge(clips, lineClips);
            }
        }

        return new ReducedPhoto(
            target.Red, target.Green, target.Blue, target.Clipped, Math.Sqrt(columns.PxPerCell * rows.PxPerCell));
    }

    /// <summary>The largest size of the photo's shape with at most so many pixels; the photo's own size if that is smaller.</summary>
    internal static (int Width, int Height) WorkingSize(int width, int height, double maxPixels)
    {
        double pixels = (double)width * height;
        if (pixels <= maxPixels)
        {
            return (width, height);
        }

        double scale = Math.Sqrt(maxPixels / pixels);
        int w = Math.Max(1, (int)Math.Round(width * scale));
        int h = Math.Max(1, (int)Math.Round(height * scale));

        // Rounding up both sides can pass the limit by a row.
        if ((double)w * h > maxPixels)
        {
            h = Math.Max(1, (int)(maxPixels / w));
        }

        return (w, h);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void ReduceRow(
        ReadOnlySpan<byte> row, Color.PhotoColorSpace space, AxisMap columns, Span<float> line, Span<byte> clips)
    {
        // Every index below comes from a byte or from the map over this row's width, so the checks of the runtime, which cost a
        // third of the time here, are left out.
        ref float red = ref MemoryMarshal.GetArrayDataReference(space.Red);
        ref float green = ref MemoryMarshal.GetArrayDataReference(space.Green);
        ref float blue = ref MemoryMarshal.GetArrayDataReference(space.Blue);
        ref byte at = ref MemoryMarshal.GetReference(row);
        int[] boundary = columns.Boundary;
        float[] shares = columns.Share;
        int x = 0;
        float restR = 0;
        float restG = 0;
        float restB = 0;
        int restClip = 0;
        for (int cell = 0, o = 0; cell < boundary.Length; cell++, o += 3)
        {
            float r = restR;
            float g = restG;
            float b = restB;
            int clip = restClip;
            for (int last = boundary[cell]; x < last; x++)
            {
                int pr = at;
                int pg = Unsafe.Add(ref at, 1);
                int pb = Unsafe.Add(ref at, 2);
                at = ref Unsafe.Add(ref at, 3);
                r += Unsafe.Add(ref red, pr);
                g += Unsafe.Add(ref green, pg);
                b += Unsafe.Add(ref blue, pb);
                clip |= IsWhite(pr, pg, pb);
            }

            int lastR = at;
            int lastG = Unsafe.Add(ref at, 1);
            int lastB = Unsafe.Add(ref at, 2);
            at = ref Unsafe.Add(ref at, 3);
            x++;
            float share = shares[cell];
            float rest = 1 - share;
            float valueR = Unsafe.Add(ref red, lastR);
            float valueG = Unsafe.Add(ref green, lastG);
            float valueB = Unsafe.Add(ref blue, lastB);
            int lastClip = IsWhite(lastR, lastG, lastB);
            line[o] = r + (share * valueR);
            line[o + 1] = g + (share * valueG);
            line[o + 2] = b + (share * valueB);
            clips[cell] = (byte)(clip | lastClip);
            restR = rest * valueR;
            restG = rest * valueG;
            restB = rest * valueB;
            restClip = rest > 0 ? lastClip : 0;
        }
    }

    /// <summary>1 if all channels are 254 or 255, else 0: those are the only bytes whose upper seven bits are all set.</summary>
    private static int IsWhite(int red, int green, int blue) => ((red & green & blue) + 2) >> 8;

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Add(Span<float> sums, ReadOnlySpan<float> line, float weight)
    {
        ref float to = ref MemoryMarshal.GetReference(sums);
        ref float from = ref MemoryMarshal.GetReference(line);
        int i = 0;
        for (; i <= sums.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            var sum = Vector.LoadUnsafe(ref to, (nuint)i) + (Vector.LoadUnsafe(ref from, (nuint)i) * weight);
            sum.StoreUnsafe(ref to, (nuint)i);
        }

        for (; i < sums.Length; i++)
        {
            sums[i] += line[i] * weight;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Merge(Span<byte> clips, ReadOnlySpan<byte> line)
    {
        int i = 0;
        for (; i <= clips.Length - Vector<byte>.Count; i += Vector<byte>.Count)
        {
            (new Vector<byte>(clips[i..]) | new Vector<byte>(line[i..])).CopyTo(clips[i..]);
        }

        for (; i < clips.Length; i++)
        {
            clips[i] |= line[i];
        }
    }

    /// <summary>The planes that are filled, turned while they are written.</summary>
    private sealed class Target(OrientedGrid grid, int storedWidth, double areaShare)
    {
        private readonly float _factor = (float)areaShare;

        public Plane Red { get; } = Plane.Unfilled(grid.Width, grid.Height);

        public Plane Green { get; } = Plane.Unfilled(grid.Width, grid.Height);

        public Plane Blue { get; } = Plane.Unfilled(grid.Width, grid.Height);

        public bool[] Clipped { get; } = GC.AllocateUninitializedArray<bool>(grid.Width * grid.Height);

        [MethodImpl(MethodImplOptions.AggressiveOptimization)]
        public void Write(int row, ReadOnlySpan<float> sums, ReadOnlySpan<byte> clips)
        {
            float[] red = Red.Values;
            float[] green = Green.Values;
            float[] blue = Blue.Values;
            bool[] clipped = Clipped;
            int index = grid.Origin + (row * grid.StepY);
            for (int x = 0, i = 0; x < storedWidth; x++, i += 3)
            {
                red[index] = Math.Min(sums[i] * _factor, 1);
                green[index] = Math.Min(sums[i + 1] * _factor, 1);
                blue[index] = Math.Min(sums[i + 2] * _factor, 1);
                clipped[index] = clips[x] != 0;
                index += grid.StepX;
            }
        }
    }
}
