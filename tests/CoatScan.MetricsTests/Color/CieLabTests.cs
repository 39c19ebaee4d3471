using CoatScan.Metrics.Color;

namespace CoatScan.MetricsTests.Color;

public sealed class CieLabTests
{
    public static TheoryData<int> Colors =>
        [.. Enumerable.Range(0, ReferenceData.Read("srgb_lab").GetProperty("colors").GetArrayLength())];

    // Tolerance 0.05 covers the rounding of the library's matrix.
    [Theory]
    [MemberData(nameof(Colors))]
    public void FromSrgb_reference_color_matches_table(int index)
    {
        var entry = ReferenceData.Read("srgb_lab").GetProperty("colors")[index];
        var rgb = entry.GetProperty("rgb").Doubles();
        var library = entry.GetProperty("lab_skimage").Doubles();
        var exact = entry.GetProperty("lab_exact_matrix_and_white").Doubles();

        var lab = CieLab.FromSrgb((byte)rgb[0], (byte)rgb[1], (byte)rgb[2]);

        Assert.Equal(library[0], lab.L, 0.05);
        Assert.Equal(library[1], lab.A, 0.05);
        Assert.Equal(library[2], lab.B, 0.05);
        Assert.Equal(exact[0], lab.L, 0.001);
        Assert.Equal(exact[1], lab.A, 0.001);
        Assert.Equal(exact[2], lab.B, 0.001);
    }

    [Fact]
    public void FromSrgb_every_gray_is_exactly_neutral()
    {
        for (var code = 0; code <= 255; code++)
        {
            var lab = CieLab.FromSrgb((byte)code, (byte)code, (byte)code);
            Assert.Equal(0.0, lab.A, 1e-9);
            Assert.Equal(0.0, lab.B, 1e-9);
        }
    }

    [Fact]
    public void White_is_d65()
    {
        // x 0.3127, y 0.3290 by IEC 61966-2-1.
        var white = CieLab.White;
        var sum = white.X + white.Y + white.Z;
        Assert.Equal(0.3127, white.X / sum, 1e-4);
        Assert.Equal(0.3290, white.Y / sum, 1e-4);
    }

    [Theory]
    [InlineData(1, 0, 0.0)]
    [InlineData(0, 2, 90.0)]
    [InlineData(-3, 0, 180.0)]
    [InlineData(0, -1, 270.0)]
    public void HueDegrees_axis_color_is_its_angle(double a, double b, double expected)
    {
        Assert.Equal(expected, new LabColor(50, a, b).HueDegrees, 1e-9);
        Assert.Equal(Math.Abs(a + b), new LabColor(50, a, b).Chroma, 1e-9);
    }
}
