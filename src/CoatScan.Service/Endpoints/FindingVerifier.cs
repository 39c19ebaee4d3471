using CoatScan.Findings;
using CoatScan.Inspection;
using CoatScan.Service.Mapping;
using CoatScan.Storage;
using CoatScan.Storage.Photos;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>Makes a stored finding again and compares: same photos, same facts and same provenance must give the same finding.</summary>
internal sealed class FindingVerifier(
    FindingStore store, PhotoStore photos, PanelInspector inspector, AnalysisGate gate, Provenance provenance)
{
    /// <summary>Compares one finding with itself made again.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="deadline">When the caller stops waiting, UTC.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <exception cref="CoatScanException">There is no such finding, or every worker is busy.</exception>
    public async Task<Wire.VerifyFindingResponse> VerifyAsync(string name, DateTime deadline, CancellationToken cancellationToken)
    {
        var stored = await store.GetAsync(name, cancellationToken).ConfigureAwait(false);
        var given = await store.GetInputsAsync(name, cancellationToken).ConfigureAwait(false);
        var answer = new Wire.VerifyFindingResponse { Outcome = Wire.VerifyFindingResponse.Types.Outcome.NotComparable };
        answer.Obstacles.AddRange(ProvenanceObstacles(stored.Provenance));
        if (given is null)
        {
            answer.Obstacles.Add("What the caller knew was not kept with this finding.");
        }

        var opened = await OpenAsync(stored.Photos, answer.Obstacles.Add, cancellationToken).ConfigureAwait(false);
        if (given is null || answer.Obstacles.Count > 0)
        {
            return answer;
        }

        var again = opened.Count == 0
            ? inspector.RankCauses(given.Facts)
            : await gate.RunAsync(
                () => inspector.InspectPhotos(opened, given.Facts, given.Zones, cancellationToken),
                PhotoDemand.Of(opened, deadline),
                cancellationToken)
                .ConfigureAwait(false);
        answer.Differences.AddRange(FindingDifference.Of(FindingMapping.ToWire(stored), FindingMapping.ToWire(AsOf(stored, again))));
        answer.Outcome = answer.Differences.Count == 0
            ? Wire.VerifyFindingResponse.Types.Outcome.Same
            : Wire.VerifyFindingResponse.Types.Outcome.Different;
        return answer;
    }

    // What belongs to the moment, not to the judgment.
    private static Finding AsOf(Finding stored, Finding again) => again with
    {
        Name = stored.Name,
        CreateTime = stored.CreateTime,
        Photos = [.. again.Photos.Select((photo, index) => photo with
        {
            SeenBefore = index < stored.Photos.Count ? stored.Photos[index].SeenBefore : [],
        })],
    };

    private async Task<List<PhotoBytes>> OpenAsync(
        IReadOnlyList<PhotoReport> reports, Action<string> say, CancellationToken cancellationToken)
    {
        var opened = new List<PhotoBytes>(reports.Count);
        for (var index = 0; index < reports.Count; index++)
        {
            var report = reports[index];
            if (await photos.FindAsync(report.Sha256, cancellationToken).ConfigureAwait(false) is { } photo)
            {
                opened.Add(PhotoBytes.ReadLater(() => photos.Load(photo), report.DisplayName, $"photos[{index}]") with
                {
                    Megapixels = photo.Description.Megapixels,
                });
            }
            else
            {
                say($"{PhotoName.Of(report.Sha256)} is not stored: it came inside the request, or was removed since.");
            }
        }

        return opened;
    }

    private IEnumerable<string> ProvenanceObstacles(Provenance made)
    {
        (string What, string Then, string Now)[] parts =
        [
            ("service version", made.ServiceVersion, provenance.ServiceVersion),
            ("classifier", made.ModelSha256, provenance.ModelSha256),
            ("knowledge base", made.KnowledgeSha256, provenance.KnowledgeSha256),
            ("metric set", made.MetricSetVersion, provenance.MetricSetVersion),
        ];
        return parts.Where(part => part.Then != part.Now).Select(part =>
            $"It was made with {part.What} {(part.Then.Length == 0 ? "unknown" : part.Then)}; here is {part.Now}.");
    }
}
