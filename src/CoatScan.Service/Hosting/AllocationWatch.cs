namespace CoatScan.Service.Hosting;

/// <summary>Tells from what a process has allocated when its work has come to an end.</summary>
internal sealed class AllocationWatch
{
    /// <summary>The quiet look at which it says so a second time.</summary>
    public const int SecondQuietLook = 15;

    // A photo takes tens of megabytes; health checks and clients that wait take less than this between two looks.
    private const long LeastOfWork = 4_000_000;

    private long _before;
    private int? _quietLooks;

    /// <param name="allocatedBytes">All that the process has allocated so far, bytes.</param>
    /// <returns>
    /// True twice after work: at the first look at which hardly anything was allocated since the look before, and at the fifteenth in a row. Pools
    /// of the runtime let go only of what a later collection finds unused still.
    /// </returns>
    public bool WorkHasEnded(long allocatedBytes)
    {
        var since = allocatedBytes - _before;
        _before = allocatedBytes;
        if (since >= LeastOfWork)
        {
            _quietLooks = 0;
            return false;
        }

        _quietLooks++;
        return _quietLooks is 1 or SecondQuietLook;
    }
}
