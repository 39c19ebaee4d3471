namespace CoatScan.Broker;

/// <summary>Waits for the broker's answer, but not for ever.</summary>
internal static class Answer
{
    /// <exception cref="TimeoutException">No answer in time.</exception>
    public static async Task WithinAsync(
        TimeSpan longest, string what, Func<CancellationToken, Task> ask, CancellationToken cancellationToken)
    {
        using var limit = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        limit.CancelAfter(longest);
        try
        {
            await ask(limit.Token).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (!cancellationToken.IsCancellationRequested)
        {
            throw new TimeoutException($"The broker did not answer for {what} within {longest.TotalSeconds} s.");
        }
    }
}
