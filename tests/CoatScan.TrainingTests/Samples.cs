using CoatScan.Classification;
using CoatScan.Training.Learning;

namespace CoatScan.TrainingTests;

/// <summary>Made-up photos for tests that need no picture.</summary>
internal static class Samples
{
    /// <summary>A photo on which the network says its class with some noise.</summary>
    /// <param name="id">True class.</param>
    /// <param name="group">Its group.</param>
    /// <param name="logits">What the network says; null for nothing.</param>
    public static Sample Of(string id, string group, float[]? logits = null) => new()
    {
        ClassIndex = VisualClasses.IndexOf(id),
        Group = group,
        Features = new PhotoFeatures
        {
            Mean = [.. Enumerable.Range(0, NetworkPipeline.FeatureLength).Select(i => (float)Math.Sin((i * 0.37) + group.Sum(letter => letter)))],
            Peak = new float[NetworkPipeline.FeatureLength],
            Answer = logits ?? new float[VisualClasses.All.Count],
            Cells = new float[CellMap.Length],
        },
        Measured = [],
        CellLabels = [],
    };

    /// <summary>What a model says when it gives one class a probability and shares the rest.</summary>
    public static PhotoScore Said(string id, float probability)
    {
        var score = new float[VisualClasses.All.Count];
        Array.Fill(score, (1 - probability) / (score.Length - 1));
        score[VisualClasses.IndexOf(id)] = probability;
        return new PhotoScore { Score = score, Position = [0] };
    }
}
