using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>Works on one item after the other: claim, grade, write the outcome.</summary>
internal sealed class BatchWorker(
    IBatchLedger ledger,
    IItemGrader grader,
    IItemHandOut handOut,
    SoloGate solo,
    TenantContext tenants,
    BatchEngineSettings settings,
    TimeProvider clock,
    Action<Exception> report)
{
    /// <summary>Takes the next item and works on it.</summary>
    public async Task WorkOnOneAsync(CancellationToken cancellationToken)
    {
        var taken = await handOut.TakeAsync(cancellationToken).ConfigureAwait(false);
        try
        {
            // Claimed only when its turn has come: a claim that waits would use up its lease.
            using var place = await solo.EnterAsync(taken.Ready.Suspect, cancellationToken).ConfigureAwait(false);
            var claim = await ledger.ClaimAsync(taken.Ready.Item, settings.Worker, settings.Lease, cancellationToken)
                .ConfigureAwait(false);
            if (claim is not null)
            {
                await AttemptAsync(claim, cancellationToken).ConfigureAwait(false);
            }
        }
        finally
        {
            await handOut.AcknowledgeAsync(taken).ConfigureAwait(false);
        }
    }

    private async Task AttemptAsync(ItemClaim claim, CancellationToken cancellationToken)
    {
        using var longest = new CancellationTokenSource(settings.LongestItem, clock);
        using var either = CancellationTokenSource.CreateLinkedTokenSource(longest.Token, cancellationToken);
        using var tenant = tenants.Enter(claim.Item.Tenant);
        GradedItem graded;
        try
        {
            graded = await grader.GradeAsync(claim.Given, either.Token).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (cancellationToken.IsCancellationRequested)
        {
            // The process drains; the engine gives the item back.
            throw;
        }
        catch (CoatScanException refusal)
        {
            await StoreAsync(() => ledger.FailAsync(claim, ItemError.Of(refusal), CancellationToken.None), cancellationToken)
                .ConfigureAwait(false);
            return;
        }
        catch (Exception fault)
        {
            report(fault);
            await StoreAsync(() => ledger.FailAsync(claim, ItemError.Internal(), CancellationToken.None), cancellationToken)
                .ConfigureAwait(false);
            return;
        }

        // Work that is done is written down, also when the process drains.
        await StoreAsync(() => ledger.FinishAsync(claim, graded, CancellationToken.None), cancellationToken).ConfigureAwait(false);
    }

    // The process renews the lease as long as it lives: an outcome dropped while the store is away would leave the item running.
    private async Task StoreAsync(Func<Task> store, CancellationToken cancellationToken)
    {
        while (true)
        {
            try
            {
                await store().ConfigureAwait(false);
                return;
            }
            catch (CoatScanException away)
                when (away.Reason == ErrorReason.StorageUnavailable && !cancellationToken.IsCancellationRequested)
            {
                report(away);
                await Task.Delay(settings.LookInterval, clock, cancellationToken).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            }
        }
    }
}
