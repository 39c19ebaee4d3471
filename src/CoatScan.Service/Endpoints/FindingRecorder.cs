using CoatScan.Findings;
using CoatScan.Service.Mapping;
using CoatScan.Storage;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>Answers a request once: replays a stored answer, or makes the finding and stores it before it goes out.</summary>
internal sealed class FindingRecorder(FindingStore store, SeenBefore seenBefore)
{
    /// <summary>The finding of a request.</summary>
    /// <param name="key">What makes two requests the same one; null if the caller did not say.</param>
    /// <param name="validateOnly">Whether to leave the finding unstored and without a name.</param>
    /// <param name="given">What it is made from beside its photos.</param>
    /// <param name="make">Makes the finding.</param>
    /// <param name="cancellationToken">Ends the work.</param>
    public async Task<Wire.Finding> AnswerAsync(
        RequestKey? key,
        bool validateOnly,
        FindingInputs given,
        Func<CancellationToken, Task<Finding>> make,
        CancellationToken cancellationToken)
    {
        if (validateOnly)
        {
            var unstored = await seenBefore.NoteAsync(
                await make(cancellationToken).ConfigureAwait(false), cancellationToken).ConfigureAwait(false);
            return FindingMapping.ToWire(unstored with { Name = "" });
        }

        if (key is not null &&
            await store.TryReplayAsync(key, cancellationToken).ConfigureAwait(false) is { } earlier)
        {
            return FindingMapping.ToWire(earlier);
        }

        var finding = await make(cancellationToken).ConfigureAwait(false);
        return FindingMapping.ToWire(
            await store.SaveAsync(finding, key, given, seenBefore.Look, cancellationToken).ConfigureAwait(false));
    }
}
