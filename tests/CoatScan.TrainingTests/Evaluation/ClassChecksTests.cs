using CoatScan.Classification;
using CoatScan.Findings;
using CoatScan.Training.Evaluation;

namespace CoatScan.TrainingTests.Evaluation;

public sealed class ClassChecksTests
{
    private static readonly LabelMap Labels = new(new Dictionary<string, string>
    {
        ["scratches"] = "parallel_scratches+swirl",
        ["chips"] = "chips",
    });

    [Fact]
    public void Of_takes_real_photos_where_there_are_ten_and_renders_otherwise()
    {
        var rendered = Report([.. VisualClasses.All.SelectMany(id => Enumerable.Repeat((id, id), 4))], labels: null);
        var real = Report(
            [
                .. Enumerable.Repeat((VisualClasses.ParallelScratches, VisualClasses.Swirl), 6),
                .. Enumerable.Repeat((VisualClasses.ParallelScratches, VisualClasses.Rust), 6),
                .. Enumerable.Repeat((VisualClasses.Chips, VisualClasses.Chips), 9),
            ],
            Labels);

        var checks = VisualClasses.All.Zip(ClassChecks.Of(rendered, real, Labels)).ToDictionary(pair => pair.First, pair => pair.Second);

        // Six of twelve answers were a class of the label, whichever.
        Assert.All(new[] { VisualClasses.ParallelScratches, VisualClasses.Swirl }, id =>
        {
            Assert.Equal((ClassCheckBasis.RealPhotos, 12, 0.5), (checks[id].Basis, checks[id].Photos, checks[id].Recall));
            Assert.Equal([VisualClasses.ParallelScratches, VisualClasses.Swirl], checks[id].Together);
        });
        Assert.Equal((ClassCheckBasis.RenderedOnly, 4, 1.0), (checks[VisualClasses.Chips].Basis, checks[VisualClasses.Chips].Photos, checks[VisualClasses.Chips].Recall));
        Assert.Equal(ClassCheckBasis.RenderedOnly, checks[VisualClasses.Rust].Basis);
    }

    [Fact]
    public void Of_without_real_photos_says_rendered_only() => Assert.All(
        ClassChecks.Of(Report([.. VisualClasses.All.Select(id => (id, id))], labels: null), null, new LabelMap(new Dictionary<string, string>())),
        check => Assert.Equal(ClassCheckBasis.RenderedOnly, check.Basis));

    private static SetReport Report((string Truth, string Called)[] photos, LabelMap? labels) => Evaluator.Evaluate(
        "test",
        [.. photos.Select((photo, i) => Samples.Of(photo.Truth, $"{i}"))],
        [.. photos.Select(photo => Samples.Said(photo.Called, 0.9f))],
        Calibration.TemperatureOnly(1, new double[VisualClasses.All.Count], 1),
        labels: labels);
}
