using CoatScan.Metrics.Color;
using CoatScan.Metrics.Zones;

namespace CoatScan.MetricsTests.Zones;

public sealed class ChromaLossTests
{
    [Fact]
    public void Measure_two_zones_of_known_color_give_their_chroma_ratio()
    {
        var full = CieLab.FromSrgb(170, 30, 40);
        var pale = CieLab.FromSrgb(190, 110, 110);

        var colors = Split((170, 30, 40), (190, 110, 110), 0.4);

        Assert.Equal(0.4, colors.SmallerShare, 0.02);
        Assert.Equal(1.0 - (pale.Chroma / full.Chroma), ChromaLoss.Measure(colors).Value!.Value, 0.001);
    }

    [Theory]
    [InlineData(150, 152, 155, 200, 200, 200, ChromaLoss.NoChroma)]
    [InlineData(170, 30, 40, 171, 31, 41, ChromaLoss.OneZone)]
    [InlineData(170, 30, 40, 120, 120, 200, ChromaLoss.OtherHue)]
    [InlineData(170, 30, 40, 70, 30, 35, ChromaLoss.Shade)]
    public void Measure_unsupported_pair_is_absent(int r1, int g1, int b1, int r2, int g2, int b2, string reason) =>
        Assert.Equal(reason, ChromaLoss.Measure(Split((r1, g1, b1), (r2, g2, b2), 0.4)).AbsentReason);

    private static TwoColors Split((int R, int G, int B) first, (int R, int G, int B) second, double share)
    {
        CoatScan.Metrics.Plane Channel(int a, int b) => Pattern.Draw(
            101, 80, (x, _) => SrgbTransfer.ByteToLinear[x < share * 101 ? b : a]);
        return TwoColors.Of(LabPlanes.FromLinear(
            Channel(first.R, second.R), Channel(first.G, second.G), Channel(first.B, second.B)));
    }
}
