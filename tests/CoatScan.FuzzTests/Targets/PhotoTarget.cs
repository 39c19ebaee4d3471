using CoatScan.DemoPanels;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Inspection;

namespace CoatScan.FuzzTests.Targets;

/// <summary>Bytes of a photo, all the way to a finding.</summary>
internal sealed class PhotoTarget(PanelInspector inspector) : IFuzzTarget
{
    private static readonly PanelFacts NoFacts = new();

    /// <inheritdoc/>
    public string Name => "photo";

    /// <inheritdoc/>
    public IEnumerable<byte[]> Seeds
    {
        get
        {
            var options = new DemoPanelOptions { WidthPx = 200, HeightPx = 160 };
            var chips = DemoPanelRenderer.Render("chips", 5, options);
            yield return chips.EncodeJpeg(40);
            yield return DemoPanelRenderer.Render("swirl", 6, options).EncodeJpeg(85);
            yield return PhotoEncoder.EncodePng(chips.Rgb, chips.WidthPx, chips.HeightPx);
            yield return PhotoEncoder.EncodePng(new byte[16 * 16 * 3], 16, 16);
            yield return PhotoEncoder.EncodeJpeg(new byte[64 * 8 * 3], 64, 8, 50);
        }
    }

    /// <inheritdoc/>
    public byte[] Mutate(Mutator mutator, IReadOnlyList<byte[]> corpus)
    {
        var changed = mutator.Change(mutator.Pick(corpus), corpus);

        // Without this the check sums of its chunks would stop nearly every changed PNG at the door.
        return mutator.Random.Next(4) > 0 ? PngChecksums.Repair(changed) : changed;
    }

    /// <inheritdoc/>
    public Task<string> RunAsync(byte[] prepared)
    {
        try
        {
            var finding = inspector.InspectPhotos([new PhotoBytes(prepared, "", "photo")], NoFacts, zones: null, CancellationToken.None);
            return Task.FromResult($"judged {finding.Verdict} as {(finding.VisualClasses is [var first, ..] ? first.VisualClass : "nothing")}");
        }
        catch (CoatScanException refusal) when (refusal.Reason.ToString().StartsWith("Photo", StringComparison.Ordinal))
        {
            return Task.FromResult($"{refusal.Reason} {TextShape.Of(refusal.Message)}");
        }
    }
}
