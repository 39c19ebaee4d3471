namespace CoatScan.Training.Evaluation;

/// <summary>Answers of nearly one confidence.</summary>
/// <param name="Low">Exclusive lower end of the confidence, [0, 1].</param>
/// <param name="High">Inclusive upper end.</param>
/// <param name="Count">Answers in the bin, above 0.</param>
/// <param name="Confidence">Their mean confidence.</param>
/// <param name="Right">Share of them that are right.</param>
internal sealed record ReliabilityBin(double Low, double High, int Count, double Confidence, double Right);
