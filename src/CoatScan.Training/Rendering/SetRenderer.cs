using CoatScan.Classification;
using CoatScan.Training.Learning;

namespace CoatScan.Training.Rendering;

/// <summary>Renders a set and looks at every panel, on all cores.</summary>
internal static class SetRenderer
{
    public static IReadOnlyList<Sample> Render(RenderedSet set, PhotoSampler sampler, TextWriter log)
    {
        var samples = new Sample[set.Count];
        var done = 0;
        Parallel.For(0, samples.Length, index =>
        {
            var (classIndex, seed) = set.Item(index);
            samples[index] = RenderOne(set, classIndex, seed, sampler);
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

    private static Sample RenderOne(RenderedSet set, int classIndex, int seed, PhotoSampler sampler)
    {
        var panel = RenderedPhotos.Panel(VisualClasses.All[classIndex], seed);
        var (features, measured) = sampler.Look(RenderedPhotos.Jpeg(panel, seed, set.Harsh));
        return new Sample
        {
            ClassIndex = classIndex,
            Group = $"{VisualClasses.All[classIndex]}-{seed}",
            Features = features,
            Measured = measured,
            CellLabels = CellLabeler.Label(classIndex, panel.Mask, panel.WidthPx, panel.HeightPx),
        };
    }
}
