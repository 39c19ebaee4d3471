namespace CoatScan.Metrics.Lines;

/// <summary>Thins a mask to lines one pixel wide.</summary>
/// <remarks>Source: Zhang and Suen, Communications of the ACM 27(3), 236-239, 1984. Cost: by the number of flagged pixels.</remarks>
internal static class Skeleton
{
    /// <summary>Thins a row-major mask in place; the indices of the pixels that stay, rising.</summary>
    /// <remarks>Pixels on the frame are cleared: they have no full neighborhood.</remarks>
    internal static List<int> Thin(bool[] mask, int width, int height)
    {
        ClearFrame(mask, width, height);
        var alive = new List<int>();
        for (var start = 0; start < mask.Length;)
        {
            var offset = mask.AsSpan(start).IndexOf(true);
            if (offset < 0)
            {
                break;
            }

            alive.Add(start + offset);
            start += offset + 1;
        }

        var doomed = new List<int>();
        var changed = true;
        while (changed)
        {
            changed = Pass(mask, width, alive, doomed, firstPass: true);
            changed |= Pass(mask, width, alive, doomed, firstPass: false);
        }

        return alive;
    }

    /// <summary>Flags of the eight neighbors, clockwise from the one above, bit 0 first.</summary>
    internal static int Neighbors(bool[] mask, int width, int index) =>
        (mask[index - width] ? 1 : 0)
        | (mask[index - width + 1] ? 2 : 0)
        | (mask[index + 1] ? 4 : 0)
        | (mask[index + width + 1] ? 8 : 0)
        | (mask[index + width] ? 16 : 0)
        | (mask[index + width - 1] ? 32 : 0)
        | (mask[index - 1] ? 64 : 0)
        | (mask[index - width - 1] ? 128 : 0);

    /// <summary>How often a walk around the pixel enters the line: 1 at an end, 2 along a line, 3 and more at a junction.</summary>
    internal static int Entries(int neighbors)
    {
        var turned = ((neighbors >> 1) | (neighbors << 7)) & 0xFF;
        return int.PopCount(~neighbors & turned & 0xFF);
    }

    private static void ClearFrame(bool[] mask, int width, int height)
    {
        mask.AsSpan(0, width).Clear();
        mask.AsSpan((height - 1) * width, width).Clear();
        for (var y = 0; y < height; y++)
        {
            mask[y * width] = false;
            mask[(y * width) + width - 1] = false;
        }
    }

    private static bool Pass(bool[] mask, int width, List<int> alive, List<int> doomed, bool firstPass)
    {
        doomed.Clear();
        foreach (var index in alive)
        {
            if (Removable(Neighbors(mask, width, index), firstPass))
            {
                doomed.Add(index);
            }
        }

        foreach (var index in doomed)
        {
            mask[index] = false;
        }

        alive.RemoveAll(index => !mask[index]);
        return doomed.Count > 0;
    }

    private static bool Removable(int neighbors, bool firstPass)
    {
        const int up = 1;
        const int right = 4;
        const int down = 16;
        const int left = 64;
        var count = int.PopCount(neighbors);
        if (count is < 2 or > 6 || Entries(neighbors) != 1)
        {
            return false;
        }

        return firstPass
            ? (neighbors & (up | right | down)) != (up | right | down)
                && (neighbors & (right | down | left)) != (right | down | left)
            : (neighbors & (up | right | left)) != (up | right | left)
                && (neighbors & (up | down | left)) != (up | down | left);
    }
}
