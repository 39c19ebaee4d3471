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

        // What a pass takes away depends on the eight neighbors alone: after the first round only pixels beside one that went are looked at again.
        var queue = new NeighborQueue(mask, width);
        var (goneFirst, goneSecond) = (new List<int>(), new List<int>());
        Pass(mask, width, alive, goneFirst, firstPass: true);
        Pass(mask, width, alive, goneSecond, firstPass: false);
        while (goneFirst.Count + goneSecond.Count > 0)
        {
            Pass(mask, width, queue.Beside(goneFirst, goneSecond), goneFirst, firstPass: true);
            Pass(mask, width, queue.Beside(goneSecond, goneFirst), goneSecond, firstPass: false);
        }

        alive.RemoveAll(index => !mask[index]);
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

    // All that can go, go together.
    private static void Pass(bool[] mask, int width, List<int> pixels, List<int> gone, bool firstPass)
    {
        gone.Clear();
        foreach (var index in pixels)
        {
            if (mask[index] && Removable(Neighbors(mask, width, index), firstPass))
            {
                gone.Add(index);
            }
        }

        foreach (var index in gone)
        {
            mask[index] = false;
        }
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

    /// <summary>Collects the pixels beside others, each once.</summary>
    private sealed class NeighborQueue(bool[] mask, int width)
    {
        private readonly bool[] _isQueued = new bool[mask.Length];
        private readonly int[] _steps = [-width - 1, -width, -width + 1, -1, 1, width - 1, width, width + 1];
        private readonly List<int> _pixels = [];

        /// <summary>Flagged pixels beside any of these; valid until the next call.</summary>
        internal List<int> Beside(List<int> some, List<int> others)
        {
            _pixels.Clear();
            Add(some);
            Add(others);
            foreach (var pixel in _pixels)
            {
                _isQueued[pixel] = false;
            }

            return _pixels;
        }

        private void Add(List<int> gone)
        {
            foreach (var pixel in gone)
            {
                foreach (var step in _steps)
                {
                    var beside = pixel + step;
                    if (mask[beside] && !_isQueued[beside])
                    {
                        _isQueued[beside] = true;
                        _pixels.Add(beside);
                    }
                }
            }
        }
    }
}
