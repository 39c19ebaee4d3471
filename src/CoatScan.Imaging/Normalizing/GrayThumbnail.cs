using CoatScan.Metrics;

namespace CoatScan.Imaging.Normalizing;

/// <summary>A photo as 32 x 32 gray values, turned upright: what its picture hash is taken from.</summary>
internal static class GrayThumbnail
{
    // ITU-R BT.601 luma of stored values, in 1/1000.
    private const int RedWeight = 299;
    private const int GreenWeight = 587;
    private const int BlueWeight = 114;

    /// <summary>Gray values as stored, [0, 255]; null if a side is shorter than the thumbnail's.</summary>
    /// <remarks>One pass over the pixels, one row of sums. A cell is whole pixels: at 32 px and more each has one at least.</remarks>
    public static Plane? Of(DecodedPhoto photo, int side)
    {
        int width = photo.StoredWidthPx;
        int height = photo.StoredHeightPx;
        if (width < side || height < side)
        {
            return null;
        }

        OrientedGrid grid = OrientedGrid.For(side, side, photo.Orientation);
        var thumbnail = new Plane(side, side);
        var sums = new long[side];
        for (int v = 0; v < side; v++)
        {
            Array.Clear(sums);
            int top = Edge(v, height, side);
            int bottom = Edge(v + 1, height, side);
            for (int y = top; y < bottom; y++)
            {
                AddRow(photo.StoredRow(y), sums, width);
            }

            for (int u = 0; u < side; u++)
            {
                double count = (double)(Edge(u + 1, width, side) - Edge(u, width, side)) * (bottom - top);
                thumbnail.Values[grid.Origin + (u * grid.StepX) + (v * grid.StepY)] = (float)(sums[u] / (1000.0 * count));
            }
        }

        return thumbnail;
    }

    private static void AddRow(ReadOnlySpan<byte> rgb, long[] sums, int width)
    {
        for (int u = 0; u < sums.Length; u++)
        {
            int start = Edge(u, width, sums.Length);
            ReadOnlySpan<byte> cell = rgb[(3 * start)..(3 * Edge(u + 1, width, sums.Length))];
            long sum = 0;
            for (int i = 0; i < cell.Length; i += 3)
            {
                sum += (RedWeight * cell[i]) + (GreenWeight * cell[i + 1]) + (BlueWeight * cell[i + 2]);
            }

            sums[u] += sum;
        }
    }

    private static int Edge(int cell, int length, int side) => (int)((long)cell * length / side);
}
