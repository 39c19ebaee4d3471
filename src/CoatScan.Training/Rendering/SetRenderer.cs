using CoatScan.Training.Learning;

namespace CoatScan.Training.Rendering;

/// <summary>Renders a set and looks at every panel, on all cores.</summary>
internal static class SetRenderer
{
    public static IReadOnlyList<Sample> Render(RenderedSet set, PhotoSampler sampler, TextWriter log)
    {
        var samples = new Sample[set.Count];
        var done = 0;

        // On a busy machine the pool would add threads without end, each with a picture in work.
        var lanes = new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount };
        Parallel.For(0, samples.Length, lanes, index =>
        {
            samples[index] = RenderOne(set, set.Item(index), sampler);
            var count = Interlocked.Increment(ref done);
            if (count % 200 == 0)
            {
                lock (log)
                {
                    log.WriteLine($"{set.Name}: {count} of {samples.Length}");
                }
            }
        });
        return samples;
    }

    private static Sample RenderOne(RenderedSet set, RenderedItem item, PhotoSampler sampler)
    {
        var panel = RenderedPhotos.Panel(item.Kind, item.Seed, set.Look, item.SecondKind);
        var (features, measured) = sampler.Look(RenderedPhotos.Jpeg(panel, item.Seed, set.Harsh, set.Look), set.Measured);
        return new Sample
        {
            ClassIndex = item.Label,
            Group = $"{item.Kind}-{item.Seed}",
            Features = features,
            Measured = measured,
            CellLabels = CellLabeler.Label(item.Label, panel.Mask, panel.WidthPx, panel.HeightPx),
            SecondIndex = item.Second,
            SecondCellLabels = item.Second < 0
                ? []
                : CellLabeler.Label(item.Second, panel.SecondMask, panel.WidthPx, panel.HeightPx),
        };
    }
}
