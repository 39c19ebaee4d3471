namespace CoatScan.ReportsTests;

public sealed class MetricNameTests
{
    [Theory]
    [InlineData("waviness_edge_0_6_to_1_2_mm", "waviness by reflected edge, 0.6 to 1.2 mm")]
    [InlineData("waviness_contrast_9_6_to_19_2_mm", "waviness by local contrast, 9.6 to 19.2 mm")]
    [InlineData("waviness_contrast_64_128_px", "waviness by local contrast, 64 to 128 px")]
    [InlineData("waviness_edge_wavelength_mm", "wavelength on the reflected edge")]
    [InlineData("gloss_loss_highlight", "gloss loss by highlight")]
    [InlineData("gloss_loss_reflected_edge", "gloss loss by reflected edge")]
    [InlineData("gloss_loss_zones", "gloss loss between zones")]
    [InlineData("spot_count_under_0_3_mm", "spot count under 0.3 mm")]
    [InlineData("spot_count_0_3_to_1_mm", "spot count 0.3 to 1 mm")]
    [InlineData("spot_count_5_to_25_mm", "spot count 5 to 25 mm")]
    [InlineData("panel_a", "panel a*")]
    [InlineData("line_arc_share", "share of lines that are arcs")]
    [InlineData("line_width_mm", "line width mm")]
    [InlineData("rust_patch_large_px", "large rust patches px")]
    [InlineData("rust_colored_fraction", "area with the color of rust")]
    [InlineData("color_difference_l", "L* of the second zone less the first")]
    [InlineData("mean_lightness", "mean lightness")]
    public void Of_id_reads_as_words_and_numbers(string metric, string words) =>
        Assert.Equal(words, MetricName.Of(metric));

    [Theory]
    [InlineData("line_width_mm", "line width")]
    [InlineData("waviness_edge_wavelength_mm", "wavelength on the reflected edge")]
    [InlineData("spot_density_per_dm2", "spot density")]
    [InlineData("line_density_per_mm", "line density")]
    [InlineData("spot_count_1_to_5_mm", "spot count 1 to 5 mm")]
    [InlineData("spot_count_4_8_px", "spot count 4 to 8 px")]
    [InlineData("spot_count_under_0_3_mm", "spot count under 0.3 mm")]
    [InlineData("waviness_contrast_64_128_px", "waviness by local contrast, 64 to 128 px")]
    public void WithoutUnit_leaves_the_unit_to_the_number_but_keeps_ranges(string metric, string words) =>
        Assert.Equal(words, MetricName.WithoutUnit(metric));
}
