using CoatScan.Classification;
using CoatScan.DemoPanels;

namespace CoatScan.ClassificationTests;

public sealed class VisualClassifierTests(ClassifierFixture fixture)
{
    // No set of the training plan comes near this seed.
    private const ulong FreshSeed = 700_001;

    [Theory]
    [InlineData(VisualClasses.Sound)]
    [InlineData(VisualClasses.FilmLoss)]
    public void Classify_of_fresh_panels_is_mostly_right(string visualClass)
    {
        const int panels = 4;
        var right = Enumerable.Range(0, panels)
            .Select(i => fixture.Classify(ClassifierFixture.Render(visualClass, FreshSeed + (ulong)i)))
            .Count(reading => reading.IsPanel && reading.Shares[0].VisualClass == visualClass);

        Assert.True(right >= panels - 1, $"{right} of {panels} panels of {visualClass} came out right");
    }

    [Fact]
    public void Classify_of_scenes_without_a_panel_says_so()
    {
        const int scenes = 4;
        var refused = Enumerable.Range(0, scenes)
            .Select(i => fixture.Classify(ClassifierFixture.Render(VisualClasses.NotAPanel, FreshSeed + (ulong)i)))
            .Where(reading => !reading.IsPanel)
            .ToArray();

        Assert.True(refused.Length >= scenes - 1, $"{refused.Length} of {scenes} scenes were refused");
        Assert.All(refused, reading => Assert.NotNull(reading.Doubt));
    }

    [Fact]
    public void Classify_gives_all_classes_sorted_with_sum_one()
    {
        var shares = fixture.Classify(ClassifierFixture.Render(VisualClasses.Chips, FreshSeed)).Shares;

        Assert.Equal(VisualClasses.All.Order(), shares.Select(share => share.VisualClass).Order());
        Assert.Equal(1, shares.Sum(share => share.Probability), 1e-9);
        Assert.Equal(shares.OrderByDescending(share => share.Probability), shares);
    }

    [Fact]
    public void Classify_marks_cells_that_overlap_the_mask()
    {
        var overlapping = 0;
        for (var i = 0UL; i < 3; i++)
        {
            var panel = ClassifierFixture.Render(VisualClasses.FilmLoss, FreshSeed + i);
            var share = fixture.Classify(panel).Shares.First(item => item.VisualClass == VisualClasses.FilmLoss);
            Assert.All(share.Regions, region =>
            {
                Assert.InRange(region.StartXPx, 0, region.EndXPx - 1);
                Assert.InRange(region.EndXPx, region.StartXPx + 1, panel.WidthPx);
                Assert.InRange(region.EndYPx, region.StartYPx + 1, panel.HeightPx);
                Assert.Equal(0, region.PhotoIndex);
                Assert.Null(region.WidthMm);
            });
            overlapping += share.Regions.Any(region => Overlaps(panel, region)) ? 1 : 0;
        }

        Assert.True(overlapping >= 2, $"{overlapping} of 3 faults were found where they are");
    }

    [Fact]
    public void Classify_repeats_and_does_not_depend_on_what_runs_beside_it()
    {
        var looks = new[] { VisualClasses.Sound, VisualClasses.Rust, VisualClasses.Rings }
            .Select(id => fixture.Look(ClassifierFixture.Render(id, FreshSeed)))
            .ToArray();
        var alone = looks.Select(Probabilities).ToArray();

        var together = new double[looks.Length * 3][];
        Parallel.For(0, together.Length, new ParallelOptions { MaxDegreeOfParallelism = 4 }, i =>
            together[i] = Probabilities(looks[i % looks.Length]));

        for (var i = 0; i < together.Length; i++)
        {
            Assert.Equal(alone[i % looks.Length], together[i]);
        }
    }

    [Fact]
    public void Classify_stops_when_cancelled()
    {
        var planes = fixture.Look(ClassifierFixture.Render(VisualClasses.Sound, FreshSeed));

        Assert.ThrowsAny<OperationCanceledException>(() =>
            fixture.Classifier.Classify(planes, new CancellationToken(canceled: true)));
    }

    [Fact]
    public void Info_names_version_digest_classes_shares_and_lambda()
    {
        var info = fixture.Classifier.Info;

        Assert.Equal(64, info.Sha256.Length);
        Assert.Equal(ModelFiles.Digest(ClassifierFixture.ModelFolderPath), info.Sha256);
        Assert.Equal(VisualClasses.All, info.Classes);
        Assert.Equal(1, info.PriorShares.Values.Sum(), 1e-9);
        Assert.InRange(info.Lambda, 0.05, 1);
    }

    private static bool Overlaps(DemoPanel panel, Findings.Region region) =>
        Enumerable.Range(region.StartYPx, region.EndYPx - region.StartYPx).Any(y =>
            panel.Mask.AsSpan((y * panel.WidthPx) + region.StartXPx, region.EndXPx - region.StartXPx).Contains(true));

    private double[] Probabilities(Metrics.PanelPlanes planes)
    {
        var shares = fixture.Classifier.Classify(planes, CancellationToken.None).Shares;
        return [.. shares.Select(share => share.Probability)];
    }
}
