namespace CoatScan.Metrics.Marks;

/// <summary>Which tiles of a mask hold a flagged pixel, so that most places need not be looked at one by one.</summary>
internal sealed class FlaggedTiles
{
    private const int TileShift = 6;

    private readonly bool[] _isFlagged;
    private readonly int _across;

    internal FlaggedTiles(ReadOnlySpan<bool> mask, int width, int height)
    {
        _across = ((width - 1) >> TileShift) + 1;
        _isFlagged = new bool[_across * (((height - 1) >> TileShift) + 1)];
        for (var y = 0; y < height; y++)
        {
            var row = mask.Slice(y * width, width);
            var tiles = _isFlagged.AsSpan((y >> TileShift) * _across, _across);
            for (var x = row.IndexOf(true); x >= 0;)
            {
                // What is left of a tile that is known to hold one tells nothing new.
                tiles[x >> TileShift] = true;
                var next = ((x >> TileShift) + 1) << TileShift;
                var offset = next < width ? row[next..].IndexOf(true) : -1;
                x = offset < 0 ? -1 : next + offset;
            }
        }
    }

    /// <summary>Whether a tile that meets a box, both ends included and inside the mask, holds a flagged pixel.</summary>
    internal bool MayMeet(int startX, int startY, int endX, int endY)
    {
        for (var y = startY >> TileShift; y <= endY >> TileShift; y++)
        {
            for (var x = startX >> TileShift; x <= endX >> TileShift; x++)
            {
                if (_isFlagged[(y * _across) + x])
                {
                    return true;
                }
            }
        }

        return false;
    }
}
