using CoatScan.Findings;
using CoatScan.Inspection;

namespace CoatScan.InspectionTests;

public sealed class PhotoGateTests
{
    [Theory]
    [InlineData(PhotoIssueCode.Blurred, "waviness_contrast_4_8_px", true)]
    [InlineData(PhotoIssueCode.Blurred, "waviness_contrast_64_128_px", false)]
    [InlineData(PhotoIssueCode.Blurred, "spot_count", true)]
    [InlineData(PhotoIssueCode.Blurred, "panel_l", false)]
    [InlineData(PhotoIssueCode.TooDark, "spot_count", true)]
    [InlineData(PhotoIssueCode.TooDark, "mean_lightness", false)]
    [InlineData(PhotoIssueCode.ScreenPhoto, "panel_l", true)]
    [InlineData(PhotoIssueCode.ScreenPhoto, "sharpness", false)]
    [InlineData(PhotoIssueCode.Featureless, "spot_count", true)]
    [InlineData(PhotoIssueCode.Featureless, "mean_lightness", false)]
    [InlineData(PhotoIssueCode.Noisy, "line_density", true)]
    [InlineData(PhotoIssueCode.Noisy, "spot_count_32_64_px", false)]
    [InlineData(PhotoIssueCode.Noisy, "waviness_edge_32_64_px", false)]
    [InlineData(PhotoIssueCode.Compressed, "waviness_edge_8_16_px", true)]
    [InlineData(PhotoIssueCode.Compressed, "waviness_contrast_1_2_to_2_4_mm", true)]
    [InlineData(PhotoIssueCode.TooOblique, "spot_diameter_mm", true)]
    [InlineData(PhotoIssueCode.TooOblique, "spot_count_0_3_to_1_mm", true)]
    [InlineData(PhotoIssueCode.TooOblique, "line_density_per_mm", true)]
    [InlineData(PhotoIssueCode.TooOblique, "spot_density_per_dm2", true)]
    [InlineData(PhotoIssueCode.TooOblique, "waviness_contrast_1_2_to_2_4_mm", true)]
    [InlineData(PhotoIssueCode.TooOblique, "spot_count", false)]
    [InlineData(PhotoIssueCode.TooOblique, "rust_colored_fraction", false)]
    [InlineData(PhotoIssueCode.Oblique, "spot_diameter_mm", false)]
    [InlineData(PhotoIssueCode.FaultTooSmall, "spot_diameter_px", true)]
    [InlineData(PhotoIssueCode.FaultTooSmall, "spot_count", false)]
    [InlineData(PhotoIssueCode.Glare, "spot_count", false)]
    [InlineData(PhotoIssueCode.NoScale, "spot_count", false)]
    public void Pass_takes_away_what_the_limit_affects_and_no_more(PhotoIssueCode code, string metric, bool isWithheld)
    {
        var measurement = Measurement.Of(metric, 3, "1");

        var passed = PhotoGate.Pass(measurement, [Issue(code)]);

        Assert.Equal(isWithheld, passed.Value is null);
        Assert.Equal(isWithheld ? "the edges rise over 9 px" : null, passed.AbsentReason);
        Assert.Equal((metric, "1"), (passed.Metric, passed.Unit));
        Assert.Same(measurement, PhotoGate.Pass(measurement, []));
    }

    [Fact]
    public void Pass_keeps_the_reason_that_the_metric_gave()
    {
        var absent = Measurement.Absent("spot_count", "1", "the panel is too small");

        Assert.Same(absent, PhotoGate.Pass(absent, [Issue(PhotoIssueCode.Blurred)]));
    }

    [Theory]
    [InlineData(PhotoIssueCode.Blurred, true, true)]
    [InlineData(PhotoIssueCode.TooDark, true, true)]
    [InlineData(PhotoIssueCode.LowResolution, true, true)]
    [InlineData(PhotoIssueCode.ScreenPhoto, true, true)]
    [InlineData(PhotoIssueCode.Featureless, true, true)]
    [InlineData(PhotoIssueCode.Glare, false, true)]
    [InlineData(PhotoIssueCode.Noisy, false, true)]
    [InlineData(PhotoIssueCode.Compressed, false, true)]
    [InlineData(PhotoIssueCode.FaultTooSmall, false, true)]
    [InlineData(PhotoIssueCode.NoScale, false, false)]
    [InlineData(PhotoIssueCode.ScaleConflict, false, false)]
    [InlineData(PhotoIssueCode.Oblique, false, false)]
    [InlineData(PhotoIssueCode.TooOblique, false, false)]
    public void Limits_silence_or_doubt(PhotoIssueCode code, bool silences, bool doubts)
    {
        Assert.Equal(silences, PhotoGate.Silences(Issue(code)));
        Assert.Equal(doubts, PhotoGate.DoubtsSound(Issue(code)));
    }

    private static PhotoIssue Issue(PhotoIssueCode code) => new(code, "The edges rise over 9 px.", "Hold still.", "Color counts.");
}
