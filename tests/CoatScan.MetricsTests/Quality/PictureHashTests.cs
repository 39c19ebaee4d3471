using System.Globalization;
using CoatScan.Metrics;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Quality;

namespace CoatScan.MetricsTests.Quality;

public sealed class PictureHashTests
{
    private const double Turn = 2.0 * Math.PI;

    // The pictures of quality.json.
    private static Plane Sine => Pattern.Draw(32, 32, (x, y) =>
        127.5
        + (100.0 * Math.Sin(Turn * ((1.3 * x) + (0.7 * y)) / 32.0))
        + (30.0 * Math.Cos(Turn * ((0.4 * x) - (2.1 * y)) / 32.0)));

    private static Plane Disk => Pattern.Draw(32, 32, (x, y) =>
        ((x - 15) * (x - 15)) + ((y - 18) * (y - 18)) <= 64 ? 220.0 : 40.0);

    private static Plane RampX => Pattern.Draw(32, 32, (x, _) => 8.0 * x);

    private static Plane RampXY => Pattern.Draw(32, 32, (x, y) => 4.0 * (x + y));

    public static TheoryData<string> Textured() => ["sine", "disk"];

    [Theory]
    [MemberData(nameof(Textured))]
    public void Of_reference_picture_has_the_reference_hash(string name)
    {
        var expected = Case(name).GetProperty("hash_msb_first").GetString()!;

        Assert.Equal(ulong.Parse(expected, NumberStyles.HexNumber, CultureInfo.InvariantCulture), PictureHash.Of(Named(name)));
    }

    [Theory]
    [MemberData(nameof(Textured))]
    public void Of_brighter_or_blurred_picture_is_the_same_and_mirrored_is_another(string name)
    {
        var picture = Named(name);
        var hash = PictureHash.Of(picture)!.Value;
        var brighter = Pattern.Draw(32, 32, (x, y) => (0.8 * picture[x, y]) + 10.0);

        Assert.Equal(Distance(name, "ham_bright08_plus10"), PictureHash.Distance(hash, PictureHash.Of(brighter)!.Value));
        Assert.Equal(Distance(name, "ham_blur1"), PictureHash.Distance(hash, PictureHash.Of(GaussianFilter.Apply(picture, 1.0))!.Value));
        Assert.Equal(Distance(name, "ham_mirror"), PictureHash.Distance(hash, PictureHash.Of(Pattern.MirrorX(picture))!.Value));
    }

    [Fact]
    public void Of_flat_picture_is_absent()
    {
        Assert.Null(PictureHash.Of(RampX));
        Assert.Null(PictureHash.Of(RampXY));
        Assert.Null(PictureHash.Of(Pattern.Draw(32, 32, (_, _) => 128.0)));

        var noise = Pattern.Noise(32, 32, seed: 5);
        Assert.Null(PictureHash.Of(Pattern.Draw(32, 32, (x, y) => 128.0 + (0.3 * noise[x, y]))));
    }

    [Fact]
    public void Of_other_size_throws() => Assert.Throws<ArgumentException>(() => PictureHash.Of(new Plane(31, 32)));

    private static Plane Named(string name) => name == "sine" ? Sine : Disk;

    private static int Distance(string name, string change) => Case(name).GetProperty(change).GetInt32();

    private static System.Text.Json.JsonElement Case(string name) =>
        ReferenceData.Read("quality").GetProperty("phash").GetProperty("cases").GetProperty(name);
}
