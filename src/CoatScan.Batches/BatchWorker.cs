using System.Collections.Concurrent;
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
    // A set: the value says nothing.
    private readonly ConcurrentDictionary<ItemClaim, byte> _held = new(ReferenceEqualityComparer.Instance);

    /// <summary>What is worked on now.</summary>
    public IReadOnlyCollection<ItemClaim> Held => [.. _held.Keys];

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
                _held.TryAdd(claim, 0);
                try
                {
                    await AttemptAsync(claim, cancellationToken).ConfigureAwait(false);
                }
                finally
                {
                    _held.TryRemove(claim, out _);
                }
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

    // An outcome dropped while the store is away would cost the item its attempt, and the wait until its lease runs out.
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
