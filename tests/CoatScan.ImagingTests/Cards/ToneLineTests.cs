using CoatScan.Imaging.Cards;

namespace CoatScan.ImagingTests.Cards;

public sealed class ToneLineTests
{
    // Dark and light 1 : 1 : 3 : 1 : 1 (ISO/IEC 18004, 6.3.3), five pixels a module, between light.
    [Fact]
    public void Patterns_finder_pattern_is_found_to_a_part_of_a_pixel()
    {
        var (middle, length) = Assert.Single(Patterns(Line(before: 200, light: 200, dark: 40)));

        Assert.Equal(20 + 17.5, middle, 0.01);
        Assert.Equal(35, length, 1.01);
    }

    [Fact]
    public void Patterns_bright_surroundings_of_shaded_paper_do_not_hide_it()
    {
        byte[] line = Line(before: 255, light: 70, dark: 20);
        line.AsSpan(10, 10).Fill(70);

        Assert.Equal(20 + 17.5, Assert.Single(Patterns(line)).Middle, 0.01);
    }

    [Theory]
    [InlineData(100, 95)]
    [InlineData(90, 90)]
    public void Patterns_hardly_any_contrast_is_none(byte light, byte dark) => Assert.Empty(Patterns(Line(light, light, dark)));

    [Fact]
    public void Patterns_even_stripes_are_none() =>
        Assert.Empty(Patterns([.. Enumerable.Range(0, 200).Select(x => (byte)(x / 5 % 2 == 0 ? 40 : 200))]));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(6)]
    public void Patterns_short_line_is_none(int length) => Assert.Empty(Patterns(Line(200, 200, 40)[..length]));

    [Fact]
    public void Read_again_forgets_the_line_before()
    {
        var line = new ToneLine(100);
        line.Read(Line(200, 200, 40));
        line.Read(new byte[100]);

        Assert.Empty(line.Patterns());
    }

    private static List<(double Middle, double Length)> Patterns(byte[] tones)
    {
        var line = new ToneLine(Math.Max(1, tones.Length));
        line.Read(tones);
        return [.. line.Patterns()];
    }

    private static byte[] Line(byte before, byte light, byte dark)
    {
        var line = new byte[75];
        line.AsSpan().Fill(before);
        int x = 20;
        foreach (var (modules, tone) in new[] { (1, dark), (1, light), (3, dark), (1, light), (1, dark) })
        {
            line.AsSpan(x, 5 * modules).Fill(tone);
            x += 5 * modules;
        }

        return line;
    }
}
