namespace CoatScan.Training.Evaluation;

/// <summary>Temperature against vector scaling.</summary>
/// <param name="Used"><c>temperature</c> or <c>vector</c>.</param>
/// <param name="Temperature">The one temperature.</param>
/// <param name="TemperatureLogLoss">Cross-validated log loss on the calibration renders, natural logarithm.</param>
/// <param name="VectorLogLoss">The same for a scale and an offset a class.</param>
/// <param name="Rows">Expected calibration error of both on every set.</param>
internal sealed record ScalingReport(
    string Used, double Temperature, double TemperatureLogLoss, double VectorLogLoss, IReadOnlyList<ScalingRow> Rows);
