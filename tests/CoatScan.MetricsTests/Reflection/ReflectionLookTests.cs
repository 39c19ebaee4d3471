using CoatScan.Metrics;

namespace CoatScan.MetricsTests.Reflection;

public sealed class ReflectionLookTests
{
    private const int SidePx = 480;

    // Sum of body and surface reflection (Shafer 1985): light added to red paint by its coat is white, by a lamp on the paint
    // it is red.
    [Fact]
    public void Find_colored_paint_tells_a_reflection_from_a_shadow()
    {
        Plane Share(double low, double high) => Pattern.Draw(
            SidePx, SidePx, (x, y) => low + ((high - low) * MirrorScene.NormalShare(x - 200.0 - (0.2 * y))));
        var reflection = Pattern.Panel(Share(0.4, 0.46), Share(0.05, 0.11), Share(0.04, 0.10));
        var shadow = Pattern.Panel(Share(0.4, 0.8), Share(0.05, 0.1), Share(0.04, 0.08));

        Assert.Single(ReflectedEdgeTests.Find(reflection));
        Assert.Empty(ReflectedEdgeTests.Find(shadow));
    }

    // A seam is dark with like paint on both sides; a gap beside a lower panel is darker than any paint near it.
    [Theory]
    [InlineData(0.2, 0.2)]
    [InlineData(0.05, 0.05)]
    [InlineData(0.05, 0.09)]
    [InlineData(0.3, 0.25)]
    public void Find_seam_is_no_reflection(double above, double below)
    {
        var panel = Pattern.Gray(Pattern.Draw(SidePx, SidePx, (x, y) =>
        {
            var across = y - 200.0 - (0.1 * x);
            return across < -3.0 ? above : across > 3.0 ? below : 0.004;
        }));

        Assert.Empty(ReflectedEdgeTests.Find(panel));
    }

    [Fact]
    public void Find_rivet_row_is_no_reflection()
    {
        var panel = Pattern.Gray(Pattern.Draw(SidePx, SidePx, (x, y) =>
            Math.Pow((x % 24) - 12.0, 2.0) + Math.Pow(y - 200.0, 2.0) <= 64.0 ? 0.1 : 0.04));

        Assert.Empty(ReflectedEdgeTests.Find(panel));
    }

    [Fact]
    public void Find_dark_strip_or_letter_on_light_paint_is_no_reflection()
    {
        Plane Strip(double width) => Pattern.Draw(
            SidePx, SidePx, (x, y) => Math.Abs(y - 200.0 - (0.1 * x)) < width ? 0.05 : 0.35);

        Assert.Empty(ReflectedEdgeTests.Find(Pattern.Gray(Strip(10.0))));
        Assert.Empty(ReflectedEdgeTests.Find(Pattern.Gray(Strip(25.0))));
    }

    [Fact]
    public void Find_border_of_dark_and_white_paint_is_no_reflection_but_a_lamp_is()
    {
        Plane Band(double bright, double end) => Pattern.Draw(
            SidePx, SidePx, (x, y) => y - (0.1 * x) is var at && at > 150.0 && at < end ? bright : 0.05);

        Assert.Empty(ReflectedEdgeTests.Find(Pattern.Gray(Band(0.7, 1000.0))));
        Assert.Empty(ReflectedEdgeTests.Find(Pattern.Gray(Band(1.0, 1000.0))));
        Assert.Equal(2, ReflectedEdgeTests.Find(Pattern.Gray(Band(1.0, 220.0))).Count(edge => edge.IsClipped));
    }

    [Fact]
    public void Find_crooked_edge_and_tiny_panel_have_none()
    {
        var zigzag = Pattern.Draw(SidePx, SidePx, (x, y) => y > 200 + (60 * (x / 60 % 2)) ? 0.09 : 0.04);

        Assert.Empty(ReflectedEdgeTests.Find(Pattern.Gray(zigzag)));
        Assert.Empty(ReflectedEdgeTests.Find(Pattern.Gray(Pattern.Draw(30, 30, (x, _) => x > 15 ? 0.09 : 0.04))));
    }
}
