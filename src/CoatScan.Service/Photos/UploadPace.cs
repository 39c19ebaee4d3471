using CoatScan.Findings;
using CoatScan.Service.Options;
using Google.Protobuf;

namespace CoatScan.Service.Photos;

/// <summary>Ends an upload that pauses, creeps or takes too long: the server's own limits do not hold for streams.</summary>
/// <remarks>
/// A pause alone does not find a sender of one byte a second, so the bytes must also keep up with a slow line. The
/// allowance starts at the idle timeout and grows with what was received.
/// </remarks>
internal sealed class UploadPace(PhotoOptions options, TimeProvider clock)
{
    private readonly long _start = clock.GetTimestamp();

    /// <summary>Waits for the next part of the upload.</summary>
    /// <param name="read">Reads it.</param>
    /// <param name="receivedBytes">Bytes received before.</param>
    /// <param name="cancellationToken">Ends the call.</param>
    /// <exception cref="CoatScanException">UPLOAD_TOO_SLOW, or SIZE_MISMATCH when the sender is gone.</exception>
    public async ValueTask<T> NextAsync<T>(
        Func<CancellationToken, ValueTask<T>> read, long receivedBytes, CancellationToken cancellationToken)
    {
        var allowed = Allowed(receivedBytes);
        if (allowed <= TimeSpan.Zero)
        {
            throw TooSlow(receivedBytes);
        }

        using var timeout = new CancellationTokenSource(allowed, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(timeout.Token, cancellationToken);
        try
        {
            return await read(either.Token).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (
            timeout.IsCancellationRequested && !cancellationToken.IsCancellationRequested)
        {
            throw TooSlow(receivedBytes);
        }
        catch (IOException gone) when (gone is not InvalidProtocolBufferException)
        {
            throw new CoatScanException(
                ErrorReason.SizeMismatch,
                $"The upload ended after {receivedBytes} bytes.",
                metadata: new Dictionary<string, string> { ["value"] = $"{receivedBytes}" },
                inner: gone);
        }
    }

    private TimeSpan Allowed(long receivedBytes)
    {
        var elapsed = clock.GetElapsedTime(_start);
        var idle = TimeSpan.FromMilliseconds(options.IdleTimeoutMs);
        var paced = idle + TimeSpan.FromSeconds((double)receivedBytes / options.MinBytesPerSecond) - elapsed;
        var total = TimeSpan.FromMilliseconds(options.TotalTimeoutMs) - elapsed;
        return new[] { idle, paced, total }.Min();
    }

    private CoatScanException TooSlow(long receivedBytes) => new(
        ErrorReason.UploadTooSlow,
        $"The upload brought {receivedBytes} bytes and then too little: it may pause for {options.IdleTimeoutMs} ms, must "
        + $"reach {options.MinBytesPerSecond} bytes a second, and may take {options.TotalTimeoutMs} ms. Send it again.",
        metadata: new Dictionary<string, string>
        {
            ["received_bytes"] = $"{receivedBytes}",
            ["idle_timeout_ms"] = $"{options.IdleTimeoutMs}",
            ["min_bytes_per_second"] = $"{options.MinBytesPerSecond}",
            ["total_timeout_ms"] = $"{options.TotalTimeoutMs}",
        });
}
