using CoatScan.Classification;
using CoatScan.Training.Evaluation;
using Microsoft.ML;

namespace CoatScan.Training.Learning;

/// <summary>
/// A shop's own labelled photos, parted by group: two thirds teach the photo model beside the renders, one third judges it against the shipped
/// model, which must not be the better one.
/// </summary>
internal sealed class ShopLesson
{
    /// <summary>How much a photo model counts that a shop taught: more than the shipped one, which has seen renders alone.</summary>
    public const double PhotoModelShare = 0.5;

    /// <summary>All teaching photos together count this share of all rendered panels ...</summary>
    private const double ShareOfRenders = 0.5;

    /// <summary>... but none more than this many panels, so that a handful of photos cannot take over.</summary>
    private const double MostWeight = 20;

    private const int HeldOutEvery = 3;

    private const int LeastGroups = 6;

    // What a shop's photos may cost on panels of all classes.
    private const double RenderedLoss = 0.02;

    private readonly ModelFolder _shipped;

    private ShopLesson(IReadOnlyList<Sample> training, IReadOnlyList<Sample> held, ModelFolder shipped)
    {
        Training = training;
        HeldOut = held;
        _shipped = shipped;
    }

    /// <summary>Photos that teach.</summary>
    public IReadOnlyList<Sample> Training { get; }

    /// <summary>Photos of other groups, which judge.</summary>
    public IReadOnlyList<Sample> HeldOut { get; }

    /// <param name="photos">The shop's photos.</param>
    /// <param name="shipped">The model to be no worse than, made with the same network.</param>
    /// <exception cref="InvalidDataException">There are too few groups to part.</exception>
    public static ShopLesson Of(IReadOnlyList<Sample> photos, ModelFolder shipped)
    {
        // By a digest of the name, so that neither the order of the file nor that of the days decides who judges.
        var groups = photos.Select(photo => photo.Group).Distinct().OrderBy(Digest).ThenBy(name => name, StringComparer.Ordinal).ToArray();
        if (groups.Length < LeastGroups)
        {
            throw new InvalidDataException(
                $"The shop's photos are of {groups.Length} groups; at least {LeastGroups} are needed, so that some can judge what the others taught.");
        }

        var judges = groups.Where((_, i) => i % HeldOutEvery == HeldOutEvery - 1).ToHashSet(StringComparer.Ordinal);
        var training = photos.Where(photo => !judges.Contains(photo.Group)).ToArray();
        var held = photos.Where(photo => judges.Contains(photo.Group)).ToArray();
        return new ShopLesson(training, held, shipped);
    }

    /// <summary>What each teaching photo counts, a rendered panel being 1.</summary>
    public double Weight(int rendered) => Math.Min(MostWeight, ShareOfRenders * rendered / Training.Count);

    /// <summary>Compares the taught model with the shipped one.</summary>
    /// <exception cref="InvalidDataException">It is worse, on the shop's own held-out photos or on rendered panels; the figures are in the message.</exception>
    public ShopReport Check(
        MLContext context, ITransformer taught, Calibration calibration, double weight, IReadOnlyList<Sample> rendered)
    {
        var mine = Scores(context, taught, calibration, HeldOut);
        var theirs = Scores(context, _shipped.PhotoModel, _shipped.Calibration, HeldOut);
        var report = new ShopReport
        {
            TrainingPhotos = Training.Count,
            Weight = weight,
            HeldOutPhotos = HeldOut.Count,
            HeldOutGroups = HeldOut.Select(photo => photo.Group).Distinct().Count(),
            MacroF1 = mine.MacroF1,
            ShippedMacroF1 = theirs.MacroF1,
            LogLoss = mine.LogLoss,
            ShippedLogLoss = theirs.LogLoss,
            RenderedMacroF1 = Scores(context, taught, calibration, rendered).MacroF1,
            ShippedRenderedMacroF1 = Scores(context, _shipped.PhotoModel, _shipped.Calibration, rendered).MacroF1,
        };
        if (report.MacroF1 < report.ShippedMacroF1 || report.LogLoss > report.ShippedLogLoss)
        {
            throw new InvalidDataException(FormattableString.Invariant(
                $"Refused: on {report.HeldOutPhotos} held-out photos of the shop the taught model has macro-F1 {report.MacroF1:0.000} and log loss {report.LogLoss:0.000}, the shipped one {report.ShippedMacroF1:0.000} and {report.ShippedLogLoss:0.000}. No model was written."));
        }

        if (report.RenderedMacroF1 < report.ShippedRenderedMacroF1 - RenderedLoss)
        {
            throw new InvalidDataException(FormattableString.Invariant(
                $"Refused: on held-out rendered panels the taught model has macro-F1 {report.RenderedMacroF1:0.000}, the shipped one {report.ShippedRenderedMacroF1:0.000}; it may lose {RenderedLoss:0.00}. No model was written."));
        }

        return report;
    }

    private static (double MacroF1, double LogLoss) Scores(
        MLContext context, ITransformer model, Calibration calibration, IReadOnlyList<Sample> samples)
    {
        var confusion = new ConfusionMatrix(VisualClasses.All.Count);
        var loss = 0.0;
        foreach (var (score, sample) in PhotoModelTrainer.MeanScore(context, model, samples, calibration.PhotoModelShare).Zip(samples))
        {
            var probabilities = calibration.Calibrate(score.Score);
            confusion.Add(sample.ClassIndex, VisualClasses.MostProbable(probabilities));
            loss -= SoftMax.SafeLog(probabilities[sample.ClassIndex]);
        }

        return (confusion.MacroF1(Enumerable.Range(0, confusion.Classes)), loss / samples.Count);
    }

    // FNV-1a: the same on every machine and in every run.
    private static uint Digest(string text)
    {
        var hash = 2166136261u;
        foreach (var letter in text)
        {
            hash = (hash ^ letter) * 16777619u;
        }

        return hash;
    }
}
