namespace CoatScan.Metrics.Filters;

/// <summary>How a kernel behaves when mirrored.</summary>
internal enum KernelParity
{
    /// <summary>The left half equals the right half.</summary>
    Even,

    /// <summary>The left half is the negative of the right half; the center is 0.</summary>
    Odd,
}
