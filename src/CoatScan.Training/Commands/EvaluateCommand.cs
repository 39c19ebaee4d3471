using CoatScan.Classification;
using CoatScan.Training.Evaluation;
using CoatScan.Training.Learning;
using CoatScan.Training.Reporting;
using Microsoft.ML;

namespace CoatScan.Training.Commands;

/// <summary>Evaluates a trained model on labelled photos.</summary>
internal static class EvaluateCommand
{
    public static void Run(string[] words, TextWriter output)
    {
        var arguments = new Arguments(words, ["photos", "labels", "map", "model", "out"]);
        var folder = arguments.Optional("model") ?? Path.Combine(AppContext.BaseDirectory, "models", "classifier");
        var context = new MLContext(seed: 1);
        var model = ModelFolder.Load(context, folder);
        using var sampler = new PhotoSampler(Path.Combine(folder, ModelFiles.Network));
        var labels = new LabelMap(arguments.Map("map"));
        var samples = RealPhotoSet.Read(
            arguments.Required("photos"), arguments.Required("labels"), labels, sampler, output);
        var report = Evaluator.Evaluate(
            "labelled photos", samples, PhotoModelTrainer.MeanScore(context, model.PhotoModel, samples), model.Calibration,
            labels: labels);
        var text = ReportText.Set(report);
        output.WriteLine(text);
        if (arguments.Optional("out") is { } file)
        {
            File.WriteAllText(file, text);
        }
    }
}
