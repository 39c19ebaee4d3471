using CoatScan.Findings;

namespace CoatScan.Batches;

/// <summary>The truth about batches: every method that changes something is one durable commit.</summary>
/// <remarks>
/// <para>The methods for callers see the batches of the current tenant only; those for workers go over all tenants, and an
/// item says whose it is. The clock is the ledger's own, not a worker's.</para>
/// <para>Every method throws <see cref="CoatScanException"/> with <see cref="ErrorReason.StorageUnavailable"/> when the
/// store does not answer, and with <see cref="ErrorReason.BatchNotFound"/> when there is no such batch.</para>
/// </remarks>
public interface IBatchLedger
{
    /// <summary>Creates an open batch.</summary>
    /// <param name="id">The caller's id; null to be given one.</param>
    /// <param name="displayName">Name for people.</param>
    /// <param name="request">What makes two requests the same one; the second is answered with the first one's batch.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    /// <exception cref="CoatScanException">BATCH_EXISTS, REQUEST_ID_REUSED.</exception>
    Task<Batch> CreateAsync(
        string? id, string displayName, RequestKey? request, CancellationToken cancellationToken);

    /// <summary>Adds items, all or none; a key already there with the same content is taken as added.</summary>
    /// <exception cref="CoatScanException">BATCH_NOT_OPEN, ITEM_EXISTS, or VALUE_OUT_OF_RANGE above the limit of a batch.</exception>
    Task<Batch> AddItemsAsync(
        string batch, IReadOnlyList<NewItem> items, CancellationToken cancellationToken);

    /// <summary>Opens a batch to the workers and closes it to further items; one that was started stays as it is.</summary>
    /// <param name="batch">Id of the batch.</param>
    /// <param name="expectedVersion">The version that the caller saw; null for any.</param>
    /// <param name="cancellationToken">Stops before the commit.</param>
    /// <exception cref="CoatScanException">BATCH_NOT_OPEN when it was cancelled, ETAG_MISMATCH.</exception>
    Task<Batch> StartAsync(string batch, long? expectedVersion, CancellationToken cancellationToken);

    /// <summary>Cancels what waits; what runs finishes. A batch at rest stays as it is.</summary>
    /// <exception cref="CoatScanException">ETAG_MISMATCH.</exception>
    Task<Batch> CancelAsync(string batch, long? expectedVersion, CancellationToken cancellationToken);

    /// <summary>Puts the failed and cancelled items of a batch at rest back in the queue.</summary>
    /// <exception cref="CoatScanException">BATCH_NOT_AT_REST, ETAG_MISMATCH.</exception>
    Task<Batch> RetryAsync(string batch, long? expectedVersion, CancellationToken cancellationToken);

    /// <summary>One batch with its counts.</summary>
    Task<Batch> GetAsync(string batch, CancellationToken cancellationToken);

    /// <summary>Batches, newest first; 0 means 50 a page, more than 500 means 500.</summary>
    /// <exception cref="CoatScanException">VALUE_OUT_OF_RANGE, FIELD_INVALID.</exception>
    Task<BatchPage<Batch>> ListAsync(
        int pageSize, string pageToken, CancellationToken cancellationToken);

    /// <summary>Items by position, only those in the given states if any; 0 means 100 a page, more than 1000 means 1000.</summary>
    /// <exception cref="CoatScanException">VALUE_OUT_OF_RANGE, FIELD_INVALID.</exception>
    Task<BatchPage<BatchItem>> ListItemsAsync(
        string batch,
        IReadOnlyCollection<ItemState> states,
        int pageSize,
        string pageToken,
        CancellationToken cancellationToken);

    /// <summary>Vehicles, worst first; 0 means 50 a page, more than 500 means 500.</summary>
    /// <exception cref="CoatScanException">VALUE_OUT_OF_RANGE, FIELD_INVALID.</exception>
    Task<BatchPage<VehicleSummary>> ListVehiclesAsync(
        string batch, int pageSize, string pageToken, CancellationToken cancellationToken);

    /// <summary>Events from a sequence on, at most as many as given.</summary>
    Task<IReadOnlyList<BatchEvent>> ListEventsAsync(
        string batch, long startSequence, int most, CancellationToken cancellationToken);

    /// <summary>Items that wait and are due, of all tenants, batches in turn; the suspects of a batch come last.</summary>
    Task<IReadOnlyList<ReadyItem>> ListReadyAsync(int most, CancellationToken cancellationToken);

    /// <summary>Claims an item that waits and is due: attempt + 1, fence + 1.</summary>
    /// <returns>The claim; null when the item does not wait, is not due, or its batch does not run.</returns>
    Task<ItemClaim?> ClaimAsync(ItemRef item, string worker, TimeSpan lease, CancellationToken cancellationToken);

    /// <summary>Says that a worker process begins, before its first claim. Dispose what comes back when it ends in good order.</summary>
    /// <remarks>
    /// Where all processes of a store run on one machine, <see cref="SweepAsync"/> then sees at once that this one was killed. Elsewhere
    /// it does nothing, and what a killed process held comes back when its leases run out.
    /// </remarks>
    IDisposable SignOn(string worker);

    /// <summary>Renews the leases of what a worker process works on, and of nothing else: a claim whose answer never came runs out.</summary>
    Task RenewAsync(IReadOnlyCollection<ItemClaim> held, TimeSpan lease, CancellationToken cancellationToken);

    /// <summary>Stores the finding, the event and "graded" in one commit.</summary>
    /// <returns>False when the claim is not the newest any more; nothing is stored then.</returns>
    Task<bool> FinishAsync(ItemClaim claim, GradedItem graded, CancellationToken cancellationToken);

    /// <summary>Ends an attempt without a finding: the item waits again, or has failed when it is not worth it any more.</summary>
    /// <returns>False when the claim is not the newest any more; nothing is stored then.</returns>
    Task<bool> FailAsync(ItemClaim claim, ItemError fault, CancellationToken cancellationToken);

    /// <summary>Fails an item that was handed out again and again and that nobody came to claim: with WORKER_LOST.</summary>
    /// <returns>False when it does not wait any more or was claimed since; nothing is changed then.</returns>
    Task<bool> GiveUpAsync(ReadyItem item, CancellationToken cancellationToken);

    /// <summary>Events of all tenants that <see cref="AnnouncedAsync"/> was not told of; those of a batch in order.</summary>
    Task<IReadOnlyList<Announcement>> ListToAnnounceAsync(int most, CancellationToken cancellationToken);

    /// <summary>Notes that the events of a batch are announced, up to and with a sequence.</summary>
    Task AnnouncedAsync(Tenant tenant, string batch, long sequence, CancellationToken cancellationToken);

    /// <summary>Puts all that a worker process holds back in the queue, the attempts not counted.</summary>
    /// <returns>How many items.</returns>
    Task<int> GiveBackAsync(string worker, CancellationToken cancellationToken);

    /// <summary>
    /// Takes items back whose lease ran out, or whose process is known to have ended: they wait again as suspects, or have failed
    /// with WORKER_LOST.
    /// </summary>
    /// <returns>How many items.</returns>
    Task<int> SweepAsync(CancellationToken cancellationToken);
}
