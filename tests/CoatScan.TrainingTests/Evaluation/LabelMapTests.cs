using CoatScan.Classification;
using CoatScan.Training.Evaluation;

namespace CoatScan.TrainingTests.Evaluation;

public sealed class LabelMapTests
{
    private static readonly LabelMap Scratches = new(new Dictionary<string, string> { ["scratches"] = "swirl+single_scratch" });

    [Fact]
    public void Merge_adds_up_the_classes_that_answer_to_one_label()
    {
        var even = Enumerable.Repeat(1.0 / VisualClasses.All.Count, VisualClasses.All.Count).ToArray();

        var merged = Scratches.Merge(even);

        Assert.Equal(2.0 / VisualClasses.All.Count, merged[VisualClasses.IndexOf(VisualClasses.Swirl)], 1e-12);
        Assert.Equal(0, merged[VisualClasses.IndexOf(VisualClasses.SingleScratch)]);
        Assert.Equal(1, merged.Sum(), 1e-12);
    }

    [Theory]
    [InlineData("scratches", VisualClasses.Swirl)]
    [InlineData("rust", VisualClasses.Rust)]
    public void IndexOf_is_the_first_class_of_the_label_or_the_class_of_that_name(string label, string visualClass) =>
        Assert.Equal(VisualClasses.IndexOf(visualClass), Scratches.IndexOf(label));

    [Fact]
    public void IndexOf_an_unknown_label_is_none() => Assert.Equal(-1, Scratches.IndexOf("dent"));

    [Theory]
    [InlineData("dents", "'dents', given for the label 'a'")]
    [InlineData("rust+rust", "answers to more than one label")]
    public void Constructor_refuses_classes_that_are_unknown_or_named_twice(string classes, string says)
    {
        var error = Assert.Throws<ArgumentException>(() => new LabelMap(new Dictionary<string, string> { ["a"] = classes }));
        Assert.Contains(says, error.Message, StringComparison.Ordinal);
    }
}
