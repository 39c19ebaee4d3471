using CoatScan.Metrics;

namespace CoatScan.MetricsTests;

public sealed class PanelPlanesTests
{
    // A size of its own and large, so that no test beside this one asks for it or pushes it out.
    private const int Width = 1009;
    private const int Height = 997;

    [Fact]
    public void GiveBack_lends_the_samples_to_the_next_photo_once()
    {
        var panel = Panel();
        panel.GiveBack();

        var first = Plane.Unfilled(Width, Height);
        var second = Plane.Unfilled(Width, Height);

        Assert.Contains(SamplesOf(panel), samples => ReferenceEquals(samples, first.Values));
        Assert.Contains(SamplesOf(panel), samples => ReferenceEquals(samples, second.Values));
        Assert.NotSame(first.Values, second.Values);
    }

    [Fact]
    public void GiveBack_twice_is_refused_because_two_photos_would_share_samples()
    {
        var panel = Panel();
        panel.GiveBack();

        Assert.Throws<InvalidOperationException>(panel.GiveBack);
    }

    private static float[][] SamplesOf(PanelPlanes panel) =>
    [
        panel.Red.Values, panel.Green.Values, panel.Blue.Values,
        panel.Lightness.Values, panel.AStar.Values, panel.BStar.Values,
    ];

    private static PanelPlanes Panel() => new()
    {
        Red = new(Width, Height),
        Green = new(Width, Height),
        Blue = new(Width, Height),
        Lightness = new(Width, Height),
        AStar = new(Width, Height),
        BStar = new(Width, Height),
        Clipped = new bool[Width * Height],
        OriginalPxPerPx = 1.0,
    };
}
