namespace CoatScan.Reports;

/// <summary>Sets two parts beside each other, or one alone over the full width where there is no other.</summary>
internal static class Columns
{
    public static IEnumerable<Block> Of(IReadOnlyList<Block> left, IReadOnlyList<Block> right) =>
        left.Count > 0 && right.Count > 0 ? [new Beside(left, right)] : [.. left, .. right];
}
