using CoatScan.Classification;
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
        src/CoatScan.Training/Network) looks at the whole panel twice, at 448 x 448 pixels and, with left and right
        changed, at 320 x 320, and answers for the picture (mean of the logarithms of both) and for each cell of a 14 x 14 grid (of the larger one). Its answer for the picture goes, standardized, into maximum entropy (multinomial logistic
        regression, ML.NET LBFGS), which is averaged with the network's own answer (means of the logarithms, the first counted {(report.Shop is null ? AnswerMean.UsualShare : ShopLesson.PhotoModelShare):0.##}; in the
        network's own, the cells count {AnswerMean.CellShare:0.##}: each class by the twentieth of them that shows it most). {Scaling(report.Scaling)}; then the class shares of training are
        replaced by those expected of photos that people send (a judgment, see `ClassShares.Expected`). The texture
        measurements of CoatScan.Metrics explain and rate, but did not earn a place here (see the comparison). Regions: cells in
        which the network sees the class rather than sound paint. A second class is named when its cells say so (see the table of two
        faults). Digest `{report.ModelSha256}`
        (over the sorted zip entries and calibration.json).

        ## What it was trained on

        Network: 69,568 **rendered, invented panels**, a fifth of them sound ones beside equal shares of all classes. Photo model: {report.TrainingPhotos} others ({plan.Training.Count} sets: ordinary and harsh camera, sound panels five times as many){Shop(report.Shop)}. All went through JPEG and
        the product's own normalizing and measuring. No photo of the real set below trained anything; but the network, what it looks at and the
        tenth on the temperature were chosen by looking at the 71 real photos below (the tenth by the shifted renders too), so their figures are better than what new
        photos will show.

        ## Intended use

        To propose what can be seen, with a probability that other evidence is merged with. Weight of the photo in that merge
        (lambda): {report.Lambda:0.00}, by likelihood on held-out renders with the harsh camera. Not for film thickness, gloss, cause
        or blame, and never as the only ground for a decision.

        ## Limits

        - It has learned from renders. On real photos it is much less good; see the two tables below, kept apart.
        - Real photos are further from the renders than renders from each other; `Familiar` and `Doubt` say when it shows.
        - Regions are as coarse as the 14 x 14 cells.
        - A fault that covers under about one percent of the picture may be missed; go nearer.

        ## Figures

        | | rendered, held out | rendered, harsh camera (trained on too) | rendered, shifted (never trained on) | real, labelled by eye |
        | --- | --- | --- | --- | --- |
        {Row(report, "photos", set => ReportText.Invariant($"{set.Count}"))}
        {Row(report, "macro-F1 of all classes", set => ReportText.Show(set.MacroF1AllClasses))}
        {Row(report, "macro-F1 without not_a_panel, all answers allowed", set => ReportText.Show(set.MacroF1))}
        {Row(report, "macro-F1, occurring classes only", set => ReportText.Show(set.MacroF1AmongOccurring))}
        {Row(report, "accuracy", set => ReportText.Show(set.Accuracy))}
        {Row(report, "accuracy among the surer half", set => ReportText.Show(set.AccuracySurerHalf))}
        {Row(report, "expected calibration error, 10 bins", set => ReportText.Show(set.Ece10))}
        {Row(report, "the same as findings carry it, classes weighed as expected in use", set => ReportText.Show(set.Ece10AsExpected))}
        {Row(report, "true class among those that cannot be excluded", set => ReportText.Show(set.SetCoverage))}
        {Row(report, "the same, classes weighed as expected in use", set => ReportText.Show(set.SetCoverageAsExpected))}
        {Row(report, "classes that cannot be excluded, mean", set => ReportText.Invariant($"{set.SetSize:0.0}"))}
        {Row(report, "panels called no panel", set => ReportText.Show(set.PanelsRefused))}
        {Row(report, "familiar", set => ReportText.Show(set.Familiar))}

        {report.RealCredit}
        Class by class, with drawings: evaluation.md.

        **Classes that cannot be excluded.** A finding marks the classes that its photo cannot exclude: split-conformal prediction with the adaptive
        score of Romano, Sesia and Candes (arXiv:2006.02544, without its random part), calibrated for a coverage of {ConformalFit.Coverage:0.00} on *rendered* panels (ordinary and harsh
        camera, classes as often as expected in use). The promise holds for such panels only. On shifted renders and on real photos
        the measured coverage stands in the table; nothing is promised there.

        **Checked on.** A finding says of each class whether naming it was checked on real photos (at least ten of them in the set above) or on
        rendered panels only, with the number of photos and the share that was found.

        ## Two faults on one panel

        {ReportText.SecondFault(report.SecondFault)}
        ## Pictures without a panel

        {(report.NonPanels is { } others
            ? ReportText.Invariant($"Of {others.Count} invented pictures (textures, text, skies, noise, drawn faces, fruit-like shapes, checks, gradients) the whole product called {others.NotAssessable:0.000} NOT_ASSESSABLE, {others.NotAssessableOrInconclusive:0.000} that or INCONCLUSIVE. By kind: evaluation.md.")
            : "Not looked at in this run.")}

        ## Scaling of the probabilities

        {ReportText.Scaling(report.Scaling)}
        ## What was compared

        Each model trained on the same renders, temperature fitted on the same calibration renders, measured in the same run.

        {(report.Ablation.Count == 0 ? "Nothing in this run." : ReportText.Ablation(report.Ablation))}
        """);

    private static string Row(EvaluationReport report, string name, Func<SetReport, string> show) =>
        $"| {name} | {show(report.Rendered)} | {show(report.RenderedHarsh)} | {show(report.RenderedShifted)} | {(report.Real is { } real ? show(real) : "-")} |";

    private static string Scaling(ScalingReport scaling) => scaling.Used == "vector"
        ? "A scale and an offset a class (vector scaling) set the probabilities right after averaging"
        : ReportText.Invariant($"One temperature, {scaling.Temperature:0.00}, sets the probabilities right after averaging (fitted on calibration renders and raised by a tenth: what people send differs from them)");

    private static string Shop(ShopReport? shop) => shop is null
        ? ""
        : ReportText.Invariant($" and {shop.TrainingPhotos} photos of a shop, each counted as {shop.Weight:0.0} panels");
}
