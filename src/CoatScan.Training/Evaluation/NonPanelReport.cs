namespace CoatScan.Training.Evaluation;

/// <summary>What the whole product says about pictures that show no painted panel.</summary>
/// <param name="Count">Pictures.</param>
/// <param name="NotAssessable">Share with the verdict NOT_ASSESSABLE, [0, 1].</param>
/// <param name="NotAssessableOrInconclusive">Share with that verdict or INCONCLUSIVE, [0, 1].</param>
/// <param name="Table">Verdicts by kind of picture, Markdown.</param>
internal sealed record NonPanelReport(int Count, double NotAssessable, double NotAssessableOrInconclusive, string Table);
