namespace CoatScan.Training.Evaluation;

/// <summary>One compared kind of model; every figure is measured in the run that writes it.</summary>
/// <param name="Model">What the model reads and is.</param>
/// <param name="RenderedMacroF1">On held-out renders.</param>
/// <param name="RenderedEce10">On held-out renders, after temperature.</param>
/// <param name="RealMacroF1">On the labelled real photos, all answers allowed; null without such photos.</param>
/// <param name="RealMacroF1AmongOccurring">The same with only the labelled classes allowed.</param>
/// <param name="RealEce10">On the labelled real photos.</param>
internal sealed record AblationRow(
    string Model,
    double RenderedMacroF1,
    double RenderedEce10,
    double? RealMacroF1,
    double? RealMacroF1AmongOccurring,
    double? RealEce10);
