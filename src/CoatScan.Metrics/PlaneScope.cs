namespace CoatScan.Metrics;

/// <summary>Lends scratch planes and takes them back together; their samples survive for the next scope of like size.</summary>
/// <remarks>
/// A plane of four megapixels is 16 MB: taking fresh memory for each step costs more than the filters that fill it. At most
/// <see cref="LargestKeptSamples"/> samples are kept for all threads together. Lent planes hold old samples: write before reading.
/// The planes of a photo come from here too, see <see cref="Plane.Unfilled"/> and <see cref="PanelPlanes.GiveBack"/>.
/// </remarks>
internal sealed class PlaneScope : IDisposable
{
    /// <summary>Samples kept at most between scopes: 160 MB, the six planes of a photo of four megapixels and four for scratch.</summary>
    internal const int LargestKeptSamples = 40 * 1024 * 1024;

    private static readonly Lock Gate = new();
    private static readonly List<float[]> Kept = [];
    private static long _keptSamples;
    private static long _limit = LargestKeptSamples;

    private readonly List<float[]> _lent = [];

    public void Dispose()
    {
        foreach (var samples in _lent)
        {
            Keep(samples);
        }

        _lent.Clear();
    }

    internal Plane Rent(int width, int height)
    {
        var length = checked(width * height);
        var samples = Take(length);
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
            Keep(plane.Values);
        }
    }

    /// <summary>Samples that hold anything: kept ones if there are any of this length.</summary>
    internal static float[] Take(int length)
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

        return GC.AllocateUninitializedArray<float>(length);
    }

    /// <summary>Keeps no more than photos of this size need, so that many small photos of many sizes do not pile up.</summary>
    /// <remarks>A photo needs its six planes, up to two scratch planes of that size, and about eight of at most a million samples.</remarks>
    internal static void FitTo(int photoSamples)
    {
        lock (Gate)
        {
            _limit = Math.Min(LargestKeptSamples, (8L * photoSamples) + (8L * Math.Min(photoSamples, 1024 * 1024)));
            MakeRoom(0);
        }
    }

    /// <summary>Keeps samples for whoever asks next. The oldest go first: a size that is no longer asked for does not stay.</summary>
    internal static void Keep(float[] samples)
    {
        lock (Gate)
        {
            if (samples.Length > _limit)
            {
                return;
            }

            if (Kept.Contains(samples))
            {
                throw new InvalidOperationException("Samples were given back twice: two photos would share them.");
            }

            MakeRoom(samples.Length);
            Kept.Add(samples);
            _keptSamples += samples.Length;
        }
    }

    /// <summary>Keeps nothing any longer.</summary>
    internal static void LetGo()
    {
        lock (Gate)
        {
            Kept.Clear();
            _keptSamples = 0;
        }
    }

    private static void MakeRoom(int samples)
    {
        while (_keptSamples + samples > _limit)
        {
            _keptSamples -= Kept[0].Length;
            Kept.RemoveAt(0);
        }
    }
}
