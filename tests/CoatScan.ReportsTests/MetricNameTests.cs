namespace CoatScan.ReportsTests;

public sealed class MetricNameTests
{
    [Theory]
    [InlineData("waviness_0_6_to_1_2_mm", "waviness 0.6 to 1.2 mm")]
    [InlineData("waviness_9_6_to_19_2_mm", "waviness 9.6 to 19.2 mm")]
    [InlineData("waviness_64_128_px", "waviness 64 to 128 px")]
    [InlineData("spot_count_under_0_3_mm", "spot count under 0.3 mm")]
    [InlineData("spot_count_0_3_to_1_mm", "spot count 0.3 to 1 mm")]
    [InlineData("spot_count_5_to_25_mm", "spot count 5 to 25 mm")]
    [InlineData("panel_a", "panel a*")]
    [InlineData("line_arc_share", "share of lines that are arcs")]
    [InlineData("line_width_mm", "line width mm")]
    [InlineData("color_difference_l", "L* of the second zone less the first")]
    [InlineData("mean_lightness", "mean lightness")]
    public void Of_id_reads_as_words_and_numbers(string metric, string words) =>
        Assert.Equal(words, MetricName.Of(metric));
}
