namespace CoatScan.Metrics;

/// <summary>One channel of an image: samples of single precision, row-major, without padding.</summary>
public sealed class Plane
{
    /// <summary>A plane of zeros.</summary>
    /// <param name="width">Width, pixels, at least 1.</param>
    /// <param name="height">Height, pixels, at least 1.</param>
    public Plane(int width, int height)
        : this(width, height, new float[checked(width * height)])
    {
    }

    /// <summary>A plane over samples that the caller hands over.</summary>
    /// <exception cref="ArgumentException">The number of samples is not width times height.</exception>
    public Plane(int width, int height, float[] values)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        ArgumentNullException.ThrowIfNull(values);
        if (values.Length != width * height)
        {
            throw new ArgumentException($"{values.Length} samples are not {width} x {height}.", nameof(values));
        }

        Width = width;
        Height = height;
        Values = values;
    }

    /// <summary>A plane whose samples hold anything: write every one before it is read.</summary>
    /// <remarks>
    /// Saves the pass that clears a plane of zeros, and fresh memory where samples of this length were given back.
    /// </remarks>
    public static Plane Unfilled(int width, int height)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(width, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(height, 1);
        return new(width, height, PlaneScope.Take(checked(width * height)));
    }

    /// <summary>Width, pixels.</summary>
    public int Width { get; }

    /// <summary>Height, pixels.</summary>
    public int Height { get; }

    /// <summary>All samples, row by row.</summary>
    public float[] Values { get; }

    /// <summary>The sample in column x and row y.</summary>
    public float this[int x, int y]
    {
        get => Values[(y * Width) + x];
        set => Values[(y * Width) + x] = value;
    }

    /// <summary>Whether there is a sample in column x and row y.</summary>
    internal bool Contains(int x, int y) => (uint)x < (uint)Width && (uint)y < (uint)Height;

    /// <summary>The samples of row y.</summary>
    public Span<float> Row(int y) => Values.AsSpan(y * Width, Width);
}
