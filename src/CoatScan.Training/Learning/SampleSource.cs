using CoatScan.Training.Rendering;

namespace CoatScan.Training.Learning;

/// <summary>Rendered samples, from a kept file when it holds exactly what is asked for.</summary>
internal sealed class SampleSource(PhotoSampler sampler, string? keepFolder, TextWriter log)
{
    public IReadOnlyList<Sample> Get(RenderedSet set)
    {
        if (keepFolder is null)
        {
            return SetRenderer.Render(set, sampler, log);
        }

        Directory.CreateDirectory(keepFolder);
        var path = Path.Combine(keepFolder, $"{set.Name.Replace(' ', '-')}.samples");
        var key = $"{set} renderer {RenderedPhotos.RendererVersion}";
        var kept = SampleFile.TryRead(path, key);
        if (kept is not null)
        {
            log.WriteLine($"{set.Name}: {kept.Count} kept samples");
            return kept;
        }

        var samples = SetRenderer.Render(set, sampler, log);
        SampleFile.Write(path, key, samples);
        return samples;
    }

    public IReadOnlyList<Sample> Get(IEnumerable<RenderedSet> sets) => [.. sets.SelectMany(Get)];
}
