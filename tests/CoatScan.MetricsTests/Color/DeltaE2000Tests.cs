using CoatScan.Metrics.Color;
using CsCheck;

namespace CoatScan.MetricsTests.Color;

public sealed class DeltaE2000Tests
{
    private static readonly Gen<LabColor> AnyColor =
        Gen.Select(Gen.Double[0, 100], Gen.Double[-120, 120], Gen.Double[-120, 120])
            .Select((l, a, b) => new LabColor(l, a, b));

    public static TheoryData<int> Pairs => [.. Enumerable.Range(0, 34)];

    // Published column of Sharma, Wu and Dalal 2005; the tolerance is the rounding of that column.
    [Theory]
    [MemberData(nameof(Pairs))]
    public void Between_published_pair_in_both_orders_matches(int pair)
    {
        var row = ReferenceData.Read("ciede2000").GetProperty("rows")[pair].Doubles();
        var first = new LabColor(row[1], row[2], row[3]);
        var second = new LabColor(row[4], row[5], row[6]);

        Assert.Equal(row[7], DeltaE2000.Between(first, second), 1e-4);
        Assert.Equal(row[7], DeltaE2000.Between(second, first), 1e-4);
    }

    [Fact]
    public void Between_equal_colors_is_zero() =>
        AnyColor.Sample(color => DeltaE2000.Between(color, color) == 0.0, iter: 500);

    [Fact]
    public void Between_two_colors_is_symmetric() =>
        Gen.Select(AnyColor, AnyColor).Sample(
            (first, second) =>
                Math.Abs(DeltaE2000.Between(first, second) - DeltaE2000.Between(second, first)) < 1e-9,
            iter: 500);
}
