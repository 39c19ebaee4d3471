namespace CoatScan.DemoPanels.Paint;

public sealed class LabTests
{
    [Theory]
    [InlineData(1f, 1f, 1f, 100.0, 0.0, 0.0)]
    [InlineData(1f, 0f, 0f, 53.24, 80.09, 67.20)]
    [InlineData(0f, 0f, 1f, 32.30, 79.19, -107.86)]
    public void Of_primaries_matches_published_values(float r, float g, float b, double l, double aStar, double bStar)
    {
        // sRGB primaries in CIELAB, D65, as tabulated widely (from memory).
        var lab = Lab.Of(new Rgb(r, g, b));

        Assert.Equal(l, lab.L, 0.05);
        Assert.Equal(aStar, lab.A, 0.05);
        Assert.Equal(bStar, lab.B, 0.05);
    }
}
