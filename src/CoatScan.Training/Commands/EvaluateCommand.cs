using System.Text;
using CoatScan.Classification;
using CoatScan.Training.Evaluation;
using CoatScan.Training.Learning;
using CoatScan.Training.Reporting;
using CoatScan.Training.Reporting.Charts;
using Microsoft.ML;

namespace CoatScan.Training.Commands;

/// <summary>Evaluates a trained model on a folder of labelled photos.</summary>
internal static class EvaluateCommand
{
    private const string Prefix = "photos";

    /// <exception cref="ArgumentException">No folder was given, or an unknown option.</exception>
    public static void Run(string[] words, TextWriter output)
    {
        if (words is not [var photos, ..] || photos.StartsWith("--", StringComparison.Ordinal))
        {
            throw new ArgumentException("'evaluate' needs the folder of the photos as its first word.");
        }

        var arguments = new Arguments(words[1..], ["labels", "map", "model", "out"]);
        var folder = arguments.Optional("model") ?? Path.Combine(AppContext.BaseDirectory, "models", "classifier");
        var labelFile = arguments.Optional("labels") ?? Path.Combine(photos, LabelledFolder.DefaultLabels);
        var context = new MLContext(seed: 1);
        var model = ModelFolder.Load(context, folder);
        using var sampler = new PhotoSampler(Path.Combine(folder, ModelFiles.Network));
        var labels = new LabelMap(arguments.Map("map"));
        var samples = LabelledPhotos.Read(photos, labelFile, labels, sampler, output);
        var report = Evaluator.Evaluate(
            "labelled photos", samples, PhotoModelTrainer.MeanScore(context, model.PhotoModel, samples, model.Calibration.PhotoModelShare), model.Calibration,
            labels: labels);
        var text = Text(model.Card, report);
        output.WriteLine(text);
        if (arguments.Optional("out") is { } target)
        {
            Directory.CreateDirectory(target);
            File.WriteAllText(Path.Combine(target, "evaluation.md"), text + "\n" + SetCharts.Markdown(Prefix));
            SetCharts.Write(report, target, Prefix);
        }
    }

    private static string Text(ModelCard card, SetReport report)
    {
        var text = new StringBuilder();
        text.AppendLine("# Evaluation on labelled photos");
        text.AppendLine();
        text.AppendLine(ReportText.Invariant(
            $"Model {card.Version}, digest `{card.Sha256}`. Intervals are 95 % percentile bootstraps over groups; those of recalls are Wilson's."));
        text.AppendLine();
        text.Append(ReportText.Set(report));
        return text.ToString();
    }
}
