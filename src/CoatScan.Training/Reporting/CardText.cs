using CoatScan.Training.Evaluation;
using CoatScan.Training.Learning;

namespace CoatScan.Training.Reporting;

/// <summary>The model card that people read.</summary>
internal static class CardText
{
    public static string Write(EvaluationReport report, TrainingPlan plan) => ReportText.Invariant($"""
        # Model card: visual classifier {report.ModelVersion}

        ## What it is

        Tells 25 visual classes of a photo of a painted vehicle panel apart. A convolutional network of our own
        (panel-network.onnx, 8-bit weights: the packaged ResNet18 without its last two blocks, tuned on rendered panels; see
        src/CoatScan.Training/Network) looks at the whole panel at 448 x 448 pixels and answers for the picture and for each
        cell of a 14 x 14 grid. Its answer for the picture goes, standardized, into maximum entropy (multinomial logistic
        regression, ML.NET LBFGS), temperature {report.Temperature:0.00}, which sets the probabilities right after averaging with the network's own answer
        (means of the logarithms); then the class shares of training are
        replaced by those expected of photos that people send (a judgment, see `ClassShares.Expected`). The texture
        measurements of CoatScan.Metrics explain and rate, but did not earn a place here (see the comparison). Regions: cells in
        which the network sees the class rather than sound paint. Digest `{report.ModelSha256}`
        (over the sorted zip entries and calibration.json).

        ## What it was trained on

        Network: 20,480 **rendered, invented panels**, a fifth of them sound ones beside equal shares of all classes, drawn by the renderer
        before its faults were made plainer. Photo model, on the renderer as it is: {report.TrainingPhotos} others ({plan.Training.Count} sets: ordinary and harsh camera, sound panels five times as many). All went through JPEG and
        the product's own normalizing and measuring. No real photo trained or calibrated anything; but the network was chosen
        among several runs by looking at the 71 real photos below, so their figure is better than what new photos will show.

        ## Intended use

        To propose what can be seen, with a probability that other evidence is merged with. Weight of the photo in that merge
        (lambda): {report.Lambda:0.00}, by likelihood on held-out renders with the harsh camera. Not for film thickness, gloss, cause
        or blame, and never as the only ground for a decision.

        ## Limits

        - It has learned from renders. On real photos it is much less good and too sure; see the two tables below, kept apart.
        - Real photos are further from the renders than renders from each other; `Familiar` and `Doubt` say when it shows.
        - Regions are as coarse as the 14 x 14 cells.
        - A fault that covers under about one percent of the picture may be missed; go nearer.

        ## Figures

        | | rendered, held out | real, labelled by eye |
        | --- | --- | --- |
        | photos | {report.Rendered.Count} | {Count(report.Real)} |
        | macro-F1 of all classes | {ReportText.Show(report.Rendered.MacroF1AllClasses)} | - |
        | macro-F1 without not_a_panel, all answers allowed | {ReportText.Show(report.Rendered.MacroF1)} | {Show(report.Real?.MacroF1)} |
        | macro-F1, occurring classes only | {ReportText.Show(report.Rendered.MacroF1AmongOccurring)} | {ReportText.Show(report.Real?.MacroF1AmongOccurring)} |
        | expected calibration error, 10 bins | {ReportText.Show(report.Rendered.Ece10)} | {Show(report.Real?.Ece10)} |
        | panels called no panel | {ReportText.Show(report.Rendered.PanelsRefused)} | {ReportText.Show(report.Real?.PanelsRefused)} |

        {report.RealCredit}
        Class by class: evaluation.md.

        ## What was compared

        Each model trained on the same renders, temperature fitted on the same calibration renders, measured in the same run.

        {ReportText.Ablation(report.Ablation)}
        """);

    private static string Count(SetReport? set) => set is null ? "not evaluated" : ReportText.Invariant($"{set.Count}");

    private static string Show(Interval? interval) => interval is null ? "-" : ReportText.Show(interval);
}
