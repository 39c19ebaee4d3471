using CoatScan.Metrics;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Zones;

namespace CoatScan.MetricsTests.Zones;

public sealed class RustColorTests
{
    // Invented colors: rust brown 120, 62, 30; gray paint 150, 152, 155.
    [Fact]
    public void Measure_brown_patch_on_gray_is_its_area()
    {
        var result = RustColor.Measure(Panel(0.2, (120, 62, 30), (150, 152, 155)), 50.0);

        Assert.Equal(0.2, result.Value!.Value, 0.01);
    }

    [Theory]
    [InlineData(230, 120, 20)] // A turn signal: too bright and too full.
    [InlineData(60, 70, 140)] // Blue paint.
    [InlineData(200, 190, 170)] // Beige.
    [InlineData(158, 152, 147)] // Gray with a warm cast.
    public void Measure_other_colors_are_not_rust(int red, int green, int blue) =>
        Assert.Equal(0.0, RustColor.Measure(Panel(0.2, (red, green, blue), (150, 152, 155)), 50.0).Value);

    [Fact]
    public void Measure_warm_scene_is_absent_not_rusty()
    {
        // Dusk: red up by 30 %, blue down by 40 %, on gray paint.
        var result = RustColor.Measure(Panel(0.2, (120, 80, 50), (185, 150, 105)), 50.0);

        Assert.Equal(RustColor.AllWarm, result.AbsentReason);
    }

    [Fact]
    public void Measure_more_rust_reads_more()
    {
        var last = -1.0;
        foreach (var share in new[] { 0.0, 0.05, 0.2, 0.5, 0.8 })
        {
            var value = RustColor.Measure(Panel(share, (120, 62, 30), (40, 44, 60)), 30.0).Value!.Value;
            Assert.True(value > last);
            last = value;
        }
    }

    [Fact]
    public void Measure_clipped_or_dark_panel_is_absent()
    {
        Assert.Equal(
            RustColor.MostlyClipped, RustColor.Measure(Panel(0.2, (120, 62, 30), (255, 255, 255)), 90.0).AbsentReason);
        Assert.Equal(RustColor.TooDark, RustColor.Measure(Panel(0.2, (8, 6, 5), (4, 4, 4)), 1.5).AbsentReason);
    }

    private static PanelPlanes Panel(double share, (int R, int G, int B) patch, (int R, int G, int B) paint)
    {
        Plane Channel(int inside, int outside) => Pattern.Draw(
            150, 120, (x, _) => SrgbTransfer.ByteToLinear[x < share * 150 ? inside : outside]);
        return Pattern.Panel(Channel(patch.R, paint.R), Channel(patch.G, paint.G), Channel(patch.B, paint.B));
    }
}
