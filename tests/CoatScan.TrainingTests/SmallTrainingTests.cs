using CoatScan.Classification;
using CoatScan.Training.Evaluation;
using CoatScan.Training.Learning;
using Microsoft.ML;

namespace CoatScan.TrainingTests;

/// <summary>The small training variant, from renders to a written model, in some two minutes on two cores.</summary>
public sealed class SmallTrainingTests : IDisposable
{
    /// <summary>What the small variant must reach on its held-out panels, ordinary camera. The full one reaches more (see the model card).</summary>
    private const double LeastMacroF1 = 0.65;

    private static readonly string Network = Path.Combine(AppContext.BaseDirectory, "models", "classifier", ModelFiles.Network);

    private readonly string _folder = Directory.CreateTempSubdirectory("coatscan-training-").FullName;

    [Fact]
    public void Small_training_reaches_its_score_and_equal_seeds_give_an_equal_model()
    {
        using var sampler = new PhotoSampler(Network);
        var first = Train(sampler, "first");
        var second = Train(sampler, "second");

        Assert.True(first.Rendered.MacroF1AllClasses >= LeastMacroF1, $"macro-F1 {first.Rendered.MacroF1AllClasses:0.000}");
        Assert.Equal(first.ModelSha256, second.ModelSha256);
        Assert.Equal(first.Rendered.MacroF1, second.Rendered.MacroF1);
        Assert.Equal(first.RenderedShifted.Accuracy, second.RenderedShifted.Accuracy);
        Assert.Equal(first.Rendered.Confusion, second.Rendered.Confusion);
        Assert.Equal(first.SecondFault.FirstRight, second.SecondFault.FirstRight);

        // What was written is what a product can load.
        var written = ModelFolder.Load(new MLContext(1), Path.Combine(_folder, "first"));
        Assert.Equal(first.ModelSha256, written.Card.Sha256);
        Assert.Equal(VisualClasses.All.Count, written.Card.Checks.Length);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    // The second run takes the first one's samples: that equal seeds give equal pictures is the renderer's own test.
    private EvaluationReport Train(PhotoSampler sampler, string name)
    {
        var folder = Path.Combine(_folder, name);
        Directory.CreateDirectory(folder);
        File.Copy(Network, Path.Combine(folder, ModelFiles.Network));
        var source = new SampleSource(sampler, Path.Combine(_folder, "samples"), TextWriter.Null);
        return new TrainingRun(TrainingPlan.Small, source, TextWriter.Null).Run(
            folder, "test", [], new LabelMap(new Dictionary<string, string>()), null);
    }
}
