namespace CoatScan.Imaging.Normalizing;

/// <summary>Where a pixel of a stored photo stands once the photo is turned as its EXIF orientation says.</summary>
/// <remarks>Index of (x, y) = Origin + x * StepX + y * StepY in a row-major plane of Width x Height.</remarks>
internal readonly record struct OrientedGrid(int Width, int Height, int Origin, int StepX, int StepY)
{
    /// <summary>The grid for a stored size and an orientation, [1, 8] (EXIF tag 0x0112).</summary>
    public static OrientedGrid For(int width, int height, int orientation)
    {
        bool swaps = orientation >= 5;
        int w = swaps ? height : width;
        int h = swaps ? width : height;
        int right = w - 1;
        int bottom = (h - 1) * w;
        return orientation switch
        {
            1 => new OrientedGrid(w, h, 0, 1, w),
            2 => new OrientedGrid(w, h, right, -1, w),
            3 => new OrientedGrid(w, h, bottom + right, -1, -w),
            4 => new OrientedGrid(w, h, bottom, 1, -w),
            5 => new OrientedGrid(w, h, 0, w, 1),
            6 => new OrientedGrid(w, h, right, w, -1),
            7 => new OrientedGrid(w, h, bottom + right, -w, -1),
            8 => new OrientedGrid(w, h, bottom, -w, 1),
            _ => throw new ArgumentOutOfRangeException(nameof(orientation), orientation, "EXIF orientation is 1 to 8."),
        };
    }

    /// <summary>The pixels of the stored photo that a rectangle of the oriented one shows; the last two are behind its last.</summary>
    public (int Left, int Top, int Right, int Bottom) Stored(int left, int top, long right, long bottom)
    {
        var (firstX, firstY) = StoredOf(Math.Min(left, Width - 1), Math.Min(top, Height - 1));
        var (lastX, lastY) = StoredOf((int)Math.Min(right, Width) - 1, (int)Math.Min(bottom, Height) - 1);
        return (Math.Min(firstX, lastX), Math.Min(firstY, lastY), Math.Max(firstX, lastX) + 1, Math.Max(firstY, lastY) + 1);
    }

    private (int X, int Y) StoredOf(int x, int y)
    {
        int byX = x - (Origin % Width);
        int byY = y - (Origin / Width);

        // The step of x is a column, or a row if the sides are swapped; in a photo one pixel wide both are alike, and so is the result.
        return Math.Abs(StepX) == 1
            ? (byX * StepX, byY * Math.Sign(StepY))
            : (byY * Math.Sign(StepX), byX * StepY);
    }
}
