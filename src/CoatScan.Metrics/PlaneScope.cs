namespace CoatScan.Metrics;

/// <summary>Lends scratch planes and takes them back together; their samples survive for the next scope of like size.</summary>
/// <remarks>
/// A plane of four megapixels is 16 MB: taking fresh memory for each step costs more than the filters that fill it. At most
/// <see cref="LargestKeptSamples"/> samples are kept for all threads together. Lent planes hold old samples: write before reading.
/// </remarks>
internal sealed class PlaneScope : IDisposable
{
    /// <summary>Samples kept at most between scopes: 96 MB.</summary>
    internal const int LargestKeptSamples = 24 * 1024 * 1024;

    private static readonly Lock Gate = new();
    private static readonly List<float[]> Kept = [];
    private static long _keptSamples;

    private readonly List<float[]> _lent = [];

    public void Dispose()
    {
        lock (Gate)
        {
            foreach (var samples in _lent)
            {
                Keep(samples);
            }
        }

        _lent.Clear();
    }

    internal Plane Rent(int width, int height)
    {
        var length = checked(width * height);
        var samples = Take(length) ?? GC.AllocateUninitializedArray<float>(length);
        _lent.Add(samples);
        return new(width, height, samples);
    }

    /// <summary>A scratch plane of the size of another.</summary>
    internal Plane RentLike(Plane plane) => Rent(plane.Width, plane.Height);

    /// <summary>Takes a plane back before the scope ends; it must not be used after.</summary>
    internal void Return(Plane plane)
    {
        if (_lent.Remove(plane.Values))
        {
            lock (Gate)
            {
                Keep(plane.Values);
            }
        }
    }

    private static float[]? Take(int length)
    {
        lock (Gate)
        {
            for (var i = Kept.Count - 1; i >= 0; i--)
            {
                if (Kept[i].Length == length)
                {
                    var samples = Kept[i];
                    Kept.RemoveAt(i);
                    _keptSamples -= length;
                    return samples;
                }
            }
        }

        return null;
    }

    // The oldest go first: a size that is no longer asked for does not stay.
    private static void Keep(float[] samples)
    {
        if (samples.Length > LargestKeptSamples)
        {
            return;
        }

        while (_keptSamples + samples.Length > LargestKeptSamples)
        {
            _keptSamples -= Kept[0].Length;
            Kept.RemoveAt(0);
        }

        Kept.Add(samples);
        _keptSamples += samples.Length;
    }
}
