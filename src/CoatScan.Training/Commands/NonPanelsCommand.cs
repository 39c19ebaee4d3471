using CoatScan.Classification;
using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Inspection;
using CoatScan.Metrics;
using CoatScan.Training.Evaluation;
using CoatScan.Training.Rendering.NonPanels;

namespace CoatScan.Training.Commands;

/// <summary>Sends pictures the whole way of a photo and counts the verdicts: invented pictures that show no panel, or those of a folder.</summary>
internal static class NonPanelsCommand
{
    private const int DefaultCount = 500;

    private static readonly string[] Endings = [".jpg", ".jpeg", ".png"];

    public static void Run(string[] words, TextWriter output)
    {
        var folder = words is [var first, ..] && !first.StartsWith("--", StringComparison.Ordinal) ? first : null;
        var arguments = new Arguments(words[(folder is null ? 0 : 1)..], ["count", "model", "pictures"]);
        var count = arguments.Whole("count", DefaultCount);
        if (arguments.Optional("pictures") is { } target)
        {
            Directory.CreateDirectory(target);
            for (var i = 0; i < count; i++)
            {
                var (kind, jpeg) = NonPanelPictures.Draw(i);
                File.WriteAllBytes(Path.Combine(target, FormattableString.Invariant($"{i:000}-{kind}.jpg")), jpeg);
            }

            output.WriteLine($"{count} pictures written to {target}");
            return;
        }

        var model = arguments.Optional("model") ?? Path.Combine(AppContext.BaseDirectory, "models", "classifier");
        output.WriteLine(Judge(model, folder is null ? Enumerable.Range(0, count).Select(NonPanelPictures.Draw) : Files(folder)));
    }

    /// <summary>Verdicts of a model on invented pictures.</summary>
    /// <param name="model">Folder of the model.</param>
    /// <param name="count">How many pictures.</param>
    public static VerdictTally Judge(string model, int count = DefaultCount) =>
        Judge(model, Enumerable.Range(0, count).Select(NonPanelPictures.Draw));

    private static VerdictTally Judge(string model, IEnumerable<(string Kind, byte[] Bytes)> pictures)
    {
        var tally = new VerdictTally();
        using var classifier = VisualClassifier.Load(model);
        var inspector = Inspector(classifier);
        Parallel.ForEach(pictures, new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount }, picture =>
        {
            Verdict? verdict = null;
            try
            {
                verdict = inspector.InspectPhotos(
                    [new PhotoBytes(picture.Bytes, "", "photos[0]")], new PanelFacts(), zones: null, CancellationToken.None).Verdict;
            }
            catch (CoatScanException)
            {
                // Too small, too long, no picture at all: no verdict is given.
            }

            lock (tally)
            {
                tally.Add(picture.Kind, verdict);
            }
        });
        return tally;
    }

    /// <summary>The product's way of a photo around a classifier.</summary>
    private static PanelInspector Inspector(VisualClassifier classifier)
    {
        var knowledge = KnowledgeBase.Load(Path.Combine(AppContext.BaseDirectory, "models", "knowledge"));
        return new PanelInspector(
            new PhotoNormalizer(new GuardedPhotoDecoder(new ImagingOptions()), new ImagingOptions()),
            classifier,
            knowledge,
            new Diagnostician(knowledge),
            new Provenance("", classifier.Info.Version, classifier.Info.Sha256, knowledge.Version, MetricSet.Version),
            new FindingNames(TimeProvider.System),
            TimeProvider.System);
    }

    private static IEnumerable<(string Kind, byte[] Bytes)> Files(string folder)
    {
        if (!Directory.Exists(folder))
        {
            throw new InvalidDataException($"The folder '{folder}' is missing.");
        }

        return Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
            .Where(path => Endings.Contains(Path.GetExtension(path).ToLowerInvariant()))
            .Order(StringComparer.Ordinal)
            .Select(path => (Path.GetDirectoryName(Path.GetRelativePath(folder, path))!, File.ReadAllBytes(path)));
    }
}
