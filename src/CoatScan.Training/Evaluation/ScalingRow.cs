namespace CoatScan.Training.Evaluation;

/// <summary>Expected calibration error, 10 bins, of one set of photos under each scaling.</summary>
/// <param name="Photos">What the photos are.</param>
/// <param name="None">Averaged probabilities as they are.</param>
/// <param name="Temperature">One temperature.</param>
/// <param name="Vector">A scale and an offset a class.</param>
internal sealed record ScalingRow(string Photos, double None, double Temperature, double Vector);
