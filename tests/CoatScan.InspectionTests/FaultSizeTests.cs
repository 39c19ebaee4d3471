using CoatScan.Classification;
using CoatScan.Findings;
using CoatScan.Inspection;
using CoatScan.Metrics;

namespace CoatScan.InspectionTests;

public sealed class FaultSizeTests
{
    // The disk of 44 px has a diameter of 7.48 px, that of 60 px 8.74 px.
    [Theory]
    [InlineData(44, "rings", 0.8, true, true)]
    [InlineData(60, "rings", 0.8, true, false)]
    [InlineData(44, "rings", 0.4, true, false)]
    [InlineData(44, "film_loss", 0.8, true, false)]
    [InlineData(44, "sound", 0.8, true, false)]
    [InlineData(44, "rings", 0.8, false, false)]
    public void Judge_marks_under_8_px(int areaPx, string visualClass, double probability, bool isPanel, bool isTooSmall)
    {
        var issue = FaultSize.Judge(Reading(visualClass, probability, isPanel), [Spot(100, areaPx)], originalPxPerPx: 2);

        Assert.Equal(isTooSmall, issue is not null);
        Assert.True(issue is null || issue.Detail.Contains("7.5 px across; the limit is 8 px", StringComparison.Ordinal));
    }

    [Fact]
    public void Judge_largest_mark_decides_and_marks_elsewhere_do_not()
    {
        var reading = Reading("domes", 0.9, isPanel: true);

        Assert.Null(FaultSize.Judge(reading, [Spot(100, 300), Spot(110, 20)], 1));
        Assert.NotNull(FaultSize.Judge(reading, [Spot(900, 300), Spot(110, 20)], 1));
        Assert.Null(FaultSize.Judge(reading, [Spot(900, 20)], 1));
        Assert.Null(FaultSize.Judge(reading, [], 1));
    }

    private static Mark Spot(int x, int areaPx) => new(x, x, x + 8, x + 8, x + 4, x + 4, areaPx, -10, false);

    private static VisualReading Reading(string visualClass, double probability, bool isPanel) => new()
    {
        Shares =
        [
            new VisualClassShare { VisualClass = visualClass, Probability = probability, Regions = [new Region(0, 50, 50, 300, 300)] },
            new VisualClassShare { VisualClass = "not_a_panel", Probability = 1 - probability },
        ],
        IsPanel = isPanel,
        Familiar = true,
    };
}
