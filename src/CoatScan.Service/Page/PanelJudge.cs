using CoatScan.Findings;
using CoatScan.Inspection;
using CoatScan.Service.Endpoints;
using CoatScan.Storage;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Page;

/// <summary>Judges stored photos of a panel with what is known about it, and stores the finding.</summary>
internal sealed class PanelJudge(
    PanelInspector inspector, RequestPhotos photos, AnalysisGate gate, SeenBefore seenBefore, FindingStore store)
{
    // A few panels in the hands of people at the same time.
    private const int LooksKept = 64;

    private readonly LookMemory _looks = new(LooksKept);

    /// <summary>The finding.</summary>
    /// <param name="names">Names of the photos, <c>photos/{sha256}</c>; empty to judge by what is known alone.</param>
    /// <param name="facts">What is known.</param>
    /// <param name="before">The finding that this one follows on; null for the first of a panel.</param>
    /// <param name="cancellationToken">Ends the work.</param>
    /// <exception cref="CoatScanException">A photo or a fact is refused, or too much is being judged.</exception>
    public async Task<Finding> JudgeAsync(
        IReadOnlyList<string> names, PanelFacts facts, Finding? before, CancellationToken cancellationToken)
    {
        Finding finding;
        if (names.Count == 0)
        {
            finding = inspector.RankCauses(facts);
        }
        else
        {
            var inputs = names.Select(name => new Wire.PhotoInput { Photo = name }).ToList();
            var opened = await photos.OpenAsync(inputs, cancellationToken).ConfigureAwait(false);
            finding = await gate
                .RunAsync(
                    () => inspector.InspectPhotos(opened, facts, _looks, cancellationToken),
                    PhotoDemand.Of(opened, DateTime.MaxValue),
                    cancellationToken)
                .ConfigureAwait(false);
        }

        return await store.SaveAsync(
            finding, requestKey: null, new FindingInputs(facts, Zones: null), seenBefore.LookAfter(before), cancellationToken)
            .ConfigureAwait(false);
    }
}
