namespace CoatScan.Service.Hosting;

/// <summary>Tells from what a process has allocated when its work has come to an end.</summary>
internal sealed class AllocationWatch
{
    // A photo takes tens of megabytes; health checks and clients that wait take less than this between two looks.
    private const long LeastOfWork = 4_000_000;

    private long _before;
    private bool _worked;

    /// <param name="allocatedBytes">All that the process has allocated so far, bytes.</param>
    /// <returns>True once after work: at the first look at which hardly anything was allocated since the look before.</returns>
    public bool WorkHasEnded(long allocatedBytes)
    {
        var since = allocatedBytes - _before;
        _before = allocatedBytes;
        if (since >= LeastOfWork)
        {
            _worked = true;
            return false;
        }

        var ended = _worked;
        _worked = false;
        return ended;
    }
}
