using CoatScan.Classification;
using CoatScan.DemoPanels;
using CoatScan.Training.Learning;
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

    [Fact]
    public void Item_of_two_faults_pairs_every_fault_with_others_and_never_with_itself()
    {
        var set = new RenderedSet("test", 70_001, 30, false) { TwoFaults = true };

        var items = Enumerable.Range(0, set.Count).Select(set.Item).ToList();

        Assert.Equal(30 * (VisualClasses.All.Count - 2), items.Count);
        Assert.All(items, item => Assert.True(
            item.Second >= 0 && item.Second != item.Label && VisualClasses.IsFault(item.Label) && VisualClasses.IsFault(item.Second)));
        Assert.All(items.GroupBy(item => item.Label), fault => Assert.True(fault.Select(item => item.Second).Distinct().Count() > 10));
    }

    [Fact]
    public void Plan_never_trains_or_calibrates_on_the_shifted_look_and_no_two_sets_share_a_picture()
    {
        foreach (var plan in new[] { TrainingPlan.For(50), TrainingPlan.For(120), TrainingPlan.Small })
        {
            RenderedSet[] fitted = [.. plan.Training, .. plan.Calibration, plan.TwoFaults];
            RenderedSet[] all = [.. fitted, plan.HeldOutOrdinary, plan.HeldOutHarsh, plan.HeldOutShifted, plan.HeldOutTwoFaults];

            Assert.All(fitted, set => Assert.Equal(PanelLook.Usual, set.Look));
            var pictures = all.SelectMany(set => Enumerable.Range(0, set.Count).Select(set.Item).Select(item => (item.Label, item.Seed))).ToList();
            Assert.Equal(pictures.Count, pictures.Distinct().Count());
        }
    }
}
