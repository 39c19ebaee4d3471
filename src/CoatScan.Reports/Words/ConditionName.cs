using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Trade name of a condition, from the finding where it is named there.</summary>
internal static class ConditionName
{
    public static string Of(ConditionShare share) =>
        share.DisplayName.Length > 0 ? share.DisplayName : Phrases.Capital(Phrases.OfId(share.Condition));

    public static string Of(Finding finding, string id) =>
        finding.Conditions.FirstOrDefault(one => one.Condition == id) is { } share ? Of(share) : Phrases.Capital(Phrases.OfId(id));
}
