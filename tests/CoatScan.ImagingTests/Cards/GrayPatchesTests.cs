using CoatScan.Findings;
using CoatScan.Imaging;

namespace CoatScan.ImagingTests.Cards;

public sealed class GrayPatchesTests
{
    private static readonly (double, double, double) Warm = (1, 0.85, 0.6);

    [Theory]
    [InlineData(1, 0.85, 0.6)]
    [InlineData(0.7, 0.9, 1)]
    [InlineData(1, 1, 1)]
    public void Normalize_card_takes_the_light_out(double red, double green, double blue)
    {
        NormalizedPhoto photo = TestPhotos.Normalize(new CardScene { Light = (red, green, blue), TiltDegrees = 20 }.Jpeg());

        PhotoColor color = photo.Report.Color;
        Assert.Equal(WhiteBalanceSource.Card, color.Source);
        Assert.Equal(green / red, color.RedGain, 0.02 * green / red);
        Assert.Equal(green / blue, color.BlueGain, 0.03 * green / blue);
        Assert.InRange(color.Uncertainty!.Value, 0.05, 0.1);

        // The gray panel beside the card is gray again.
        Assert.Equal(0, photo.Planes.AStar[50, 50], 1.5);
        Assert.Equal(0, photo.Planes.BStar[50, 50], 1.5);
    }

    [Theory]
    [InlineData(0.9)]
    [InlineData(0.5)]
    [InlineData(0.2)]
    public void Normalize_paper_tells_the_exposure(double exposure)
    {
        NormalizedPhoto photo = TestPhotos.Normalize(new CardScene { Exposure = exposure }.Jpeg());

        // Paper of the invented card: 0.85.
        Assert.Equal(0.85 * exposure, photo.Report.Color.PaperLevel!.Value, 0.02);
    }

    [Fact]
    public void Normalize_clipped_paper_tells_no_exposure() =>
        Assert.Null(TestPhotos.Normalize(new CardScene { Exposure = 1.4 }.Jpeg()).Report.Color.PaperLevel);

    [Fact]
    public void Normalize_glare_on_a_patch_leaves_that_patch_out()
    {
        // On the second patch.
        NormalizedPhoto photo = TestPhotos.Normalize(new CardScene { Light = Warm, Glare = (77, 41, 7) }.Jpeg());

        Assert.Equal(WhiteBalanceSource.Card, photo.Report.Color.Source);
        Assert.Equal(0.85, photo.Report.Color.RedGain, 0.02);
        Assert.Equal(0.85 / 0.6, photo.Report.Color.BlueGain, 0.04);
    }

    [Fact]
    public void Normalize_patches_in_two_lights_disagree_and_change_nothing()
    {
        // Half of the neutral places lie in lamp light.
        NormalizedPhoto photo = TestPhotos.Normalize(
            new CardScene { OtherLight = Warm, OtherFromMm = 77, FrameShare = 0.3 }.Jpeg());

        PhotoColor color = photo.Report.Color;
        Assert.NotEqual(WhiteBalanceSource.Card, color.Source);
        Assert.Contains("disagree", color.Reason, StringComparison.Ordinal);
        Assert.Null(color.Uncertainty);
    }

    [Fact]
    public void Normalize_card_covered_by_glare_has_too_few_neutral_places()
    {
        NormalizedPhoto photo = TestPhotos.Normalize(new CardScene { Glare = (87, 40, 26), FrameShare = 0.3 }.Jpeg());

        Assert.NotNull(photo.Card);
        Assert.Contains("neutral places can be read", photo.Report.Color.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Normalize_shade_over_part_of_the_card_leaves_the_color_right()
    {
        NormalizedPhoto photo = TestPhotos.Normalize(new CardScene { Light = Warm, Shade = 0.35 }.Jpeg());

        Assert.Equal(WhiteBalanceSource.Card, photo.Report.Color.Source);
        Assert.Equal(0.85, photo.Report.Color.RedGain, 0.02);
    }
}
