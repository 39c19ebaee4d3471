using System.Diagnostics;
using System.Text.Json;
using CoatScan.Classification;
using CoatScan.Training.Evaluation;
using CoatScan.Training.Learning;
using CoatScan.Training.Reporting;
using CoatScan.Training.Reporting.Charts;
using Microsoft.ML;

namespace CoatScan.Training.Commands;

/// <summary>Renders, trains, evaluates and writes a model with its card and evaluation.</summary>
internal static class TrainCommand
{
    private const int DefaultPerClass = 120;

    private const string DefaultVersion = "1.0.0";

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    public static void Run(string[] words, TextWriter output)
    {
        var arguments = new Arguments(
            words, ["out", "per-class", "small", "version", "keep", "network", "photos", "labels", "map", "credit", "shop", "shop-labels", "shipped"]);
        var folder = arguments.Required("out");
        var plan = arguments.Whole("small", 0) != 0
            ? TrainingPlan.Small
            : TrainingPlan.For(arguments.Whole("per-class", DefaultPerClass));
        var watch = Stopwatch.StartNew();
        var network = CopyNetwork(arguments.Optional("network"), folder);
        using var sampler = new PhotoSampler(network);
        var labels = new LabelMap(arguments.Map("map"));
        var real = RealPhotos(arguments, labels, sampler, output);
        var shop = Shop(arguments, sampler, network, output);
        var run = new TrainingRun(plan, new SampleSource(sampler, arguments.Optional("keep"), output), output);
        var report = run.Run(
            folder, arguments.Optional("version") ?? DefaultVersion, real, labels, arguments.Optional("credit"), shop);
        if (plan.Compares)
        {
            output.WriteLine("looking at pictures without a panel");
            report = report with { NonPanels = NonPanelsCommand.Judge(folder).ToReport() };
        }

        Write(folder, report, plan);
        output.WriteLine(ReportText.Evaluation(report));
        output.WriteLine(ReportText.Ablation(report.Ablation));
        output.WriteLine(ReportText.Invariant($"done in {watch.Elapsed.TotalMinutes:0.0} minutes"));
    }

    // The network is learned apart, on a faster machine; the model's folder holds the one that its features come from.
    private static string CopyNetwork(string? from, string folder)
    {
        Directory.CreateDirectory(folder);
        var source = from ?? Path.Combine(AppContext.BaseDirectory, "models", "classifier", ModelFiles.Network);
        var target = Path.Combine(folder, ModelFiles.Network);
        if (!string.Equals(Path.GetFullPath(source), Path.GetFullPath(target), StringComparison.Ordinal))
        {
            File.Copy(source, target, overwrite: true);
        }

        return target;
    }

    private static IReadOnlyList<Sample> RealPhotos(
        Arguments arguments, LabelMap labels, PhotoSampler sampler, TextWriter output) =>
        arguments.Optional("photos") is { } photos
            ? LabelledPhotos.Read(photos, arguments.Required("labels"), labels, sampler, output)
            : [];

    // Its labels must be visual classes: a photo that may be any of three teaches none of them.
    private static ShopLesson? Shop(Arguments arguments, PhotoSampler sampler, string network, TextWriter output)
    {
        if (arguments.Optional("shop") is not { } photos)
        {
            return null;
        }

        var folder = arguments.Optional("shipped") ?? Path.Combine(AppContext.BaseDirectory, "models", "classifier");
        var shipped = ModelFolder.Load(new MLContext(seed: 1), folder);
        if (shipped.Card.NetworkSha256 != ModelFiles.FileDigest(network))
        {
            throw new InvalidDataException($"The model of '{folder}' was made with another network than '{network}'; the two cannot be compared.");
        }

        var labels = arguments.Optional("shop-labels") ?? Path.Combine(photos, LabelledFolder.DefaultLabels);
        return ShopLesson.Of(LabelledPhotos.Read(photos, labels, new LabelMap(new Dictionary<string, string>()), sampler, output), shipped);
    }

    private static void Write(string folder, EvaluationReport report, TrainingPlan plan)
    {
        File.WriteAllText(Path.Combine(folder, "evaluation.json"), JsonSerializer.Serialize(report, Json) + "\n");
        File.WriteAllText(Path.Combine(folder, "evaluation.md"), ReportText.Evaluation(report));
        File.WriteAllText(Path.Combine(folder, "card.md"), CardText.Write(report, plan));
        foreach (var (prefix, set) in ReportText.Charted(report))
        {
            SetCharts.Write(set, Path.Combine(folder, ReportText.ChartFolder), prefix);
        }
    }
}
