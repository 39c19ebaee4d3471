namespace CoatScan.Training.Evaluation;

/// <summary>One class of an evaluation.</summary>
/// <param name="VisualClass">Id.</param>
/// <param name="Photos">Photos that truly show it.</param>
/// <param name="Precision">Right among those called so; null when none was.</param>
/// <param name="Recall">Found among those that are so; null when none is.</param>
/// <param name="F1">Harmonic mean of both; null when the class neither occurs nor is called.</param>
/// <param name="RecallInterval">95 % interval of the recall; null when no photo shows the class.</param>
/// <param name="Note">What a reader should know about these figures, one or two sentences; may be empty.</param>
internal sealed record ClassReport(
    string VisualClass, int Photos, double? Precision, double? Recall, double? F1, Interval? RecallInterval, string Note);
