namespace CoatScan.Imaging;

/// <summary>Bounds the pixels that are decoded at full size at a time: what memory is spent on is pixels, not photos.</summary>
/// <remarks>In the order of coming, so that a large photo is not passed by small ones for ever. Thread safe.</remarks>
public sealed class MegapixelGate
{
    private readonly Lock _lock = new();
    private readonly LinkedList<Turn> _waiting = new();
    private readonly double _capacity;
    private double _inFlight;

    /// <summary>A gate with nothing in it.</summary>
    /// <param name="capacityMegapixels">Most millions of pixels at a time, above 0; a single photo above it is let in alone.</param>
    public MegapixelGate(double capacityMegapixels)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(capacityMegapixels);
        _capacity = capacityMegapixels;
    }

    /// <summary>Millions of pixels that are let in now.</summary>
    public double InFlightMegapixels
    {
        get
        {
            lock (_lock)
            {
                return _inFlight;
            }
        }
    }

    /// <summary>Photos that wait for room.</summary>
    internal int WaitingCount
    {
        get
        {
            lock (_lock)
            {
                return _waiting.Count;
            }
        }
    }

    /// <summary>Waits until there is room, on the thread of the worker; leave by disposing what comes back.</summary>
    /// <param name="megapixels">Millions of pixels, above 0.</param>
    /// <param name="cancellationToken">Gives up waiting.</param>
    internal IDisposable Enter(double megapixels, CancellationToken cancellationToken)
    {
        var turn = new Turn(Math.Min(megapixels, _capacity));
        lock (_lock)
        {
            _waiting.AddLast(turn);
            LetIn();
        }

        try
        {
            turn.Come.Wait(cancellationToken);
            return new Place(this, turn.Megapixels);
        }
        catch (OperationCanceledException)
        {
            lock (_lock)
            {
                if (!_waiting.Remove(turn))
                {
                    // Its turn came in the same moment.
                    _inFlight -= turn.Megapixels;
                }

                LetIn();
            }

            throw;
        }
        finally
        {
            turn.Come.Dispose();
        }
    }

    private void Leave(double megapixels)
    {
        lock (_lock)
        {
            _inFlight -= megapixels;
            LetIn();
        }
    }

    private void LetIn()
    {
        while (_waiting.First is { Value: var next } && (_inFlight <= 0 || _inFlight + next.Megapixels <= _capacity))
        {
            _waiting.RemoveFirst();
            _inFlight += next.Megapixels;
            next.Come.Set();
        }
    }

    private sealed class Turn(double megapixels)
    {
        public double Megapixels { get; } = megapixels;

        public ManualResetEventSlim Come { get; } = new();
    }

    private sealed class Place(MegapixelGate gate, double megapixels) : IDisposable
    {
        private int _left;

        public void Dispose()
        {
            if (Interlocked.Exchange(ref _left, 1) == 0)
            {
                gate.Leave(megapixels);
            }
        }
    }
}
