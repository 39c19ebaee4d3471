using CoatScan.Classification;
using CoatScan.DemoPanels;
using CoatScan.Training.Rendering;

namespace CoatScan.TrainingTests.Rendering;

public sealed class RenderedSetTests
{
    [Fact]
    public void Item_draws_every_kind_that_the_renderer_knows()
    {
        var set = new RenderedSet("test", 1, 2, false);

        var drawn = Enumerable.Range(0, set.Count).Select(at => set.Item(at).Kind).Distinct();

        Assert.Equal(VisualClassIds.All, drawn);
    }

    [Fact]
    public void Item_gives_every_class_its_count_and_sound_the_rest()
    {
        var set = new RenderedSet("test", 1, 5, false, MoreSound: 2);

        var counts = Enumerable.Range(0, set.Count).CountBy(at => set.Item(at).Label).ToDictionary();

        Assert.Equal(VisualClasses.All.Count, counts.Count);
        Assert.Equal(15, counts[VisualClasses.IndexOf(VisualClasses.Sound)]);
        Assert.All(counts.Where(one => one.Key != 0), one => Assert.Equal(5, one.Value));
    }

    [Fact]
    public void Item_never_draws_one_kind_twice_from_one_seed()
    {
        var set = new RenderedSet("test", 1, 40, false, MoreSound: 3);

        var items = Enumerable.Range(0, set.Count).Select(set.Item).ToList();

        Assert.Equal(items.Count, items.Distinct().Count());
    }
}
