using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Zones;

namespace CoatScan.InspectionTests;

/// <summary>E-5 of the science sheet: two zones of known color, from the bytes of a JPEG to CIEDE2000.</summary>
public sealed class ZonePhotoTests
{
    private const int Width = 320;
    private const int Height = 160;

    private static readonly ZonePair Sides = new(new(0, 16, 16, 112, 112), new(0, 192, 16, 112, 112));

    // Noise in each channel: half a code, less than any sensor has, and two. Where there is none at all, rounding to 8 bits alone takes
    // up to 0.95 from a dark color (PNG: 194 of 200 pairs are within 0.5), and no reader can know it. Below quality 90 the file itself
    // knows its means in steps of a code and more, and half a unit is not met by all.
    [Theory]
    [InlineData(95, 0.5, 1.0)]
    [InlineData(95, 2.0, 1.0)]
    [InlineData(90, 0.5, 1.0)]
    [InlineData(90, 2.0, 1.0)]
    [InlineData(75, 2.0, 0.9)]
    [InlineData(60, 2.0, 0.7)]
    public void Measure_known_zones_are_near_the_formula_and_inside_the_uncertainty(int quality, double noise, double leastShare)
    {
        var random = new Random(77);
        var (near, inside, count) = (0, 0, 0);
        while (count < 60)
        {
            var first = new LabColor(25 + (60 * random.NextDouble()), (80 * random.NextDouble()) - 40, (80 * random.NextDouble()) - 40);
            var second = new LabColor(
                first.L + (8 * random.NextDouble()) - 4, first.A + (16 * random.NextDouble()) - 8, first.B + (16 * random.NextDouble()) - 8);
            if (!IsShowable(first) || !IsShowable(second))
            {
                continue;
            }

            var result = Compare((x, _) => x < Width / 2 ? first : second, (_, _) => 1.0, quality, noise);
            var error = Math.Abs(result.Value!.Value - DeltaE2000.Between(first, second));
            count++;
            near += error <= 0.5 ? 1 : 0;
            inside += error <= result.Uncertainty!.Value ? 1 : 0;
        }

        Assert.InRange(near, leastShare * count, count);
        Assert.InRange(inside, 0.95 * count, count);
    }

    // The same colors without any noise: whatever storing takes away, the uncertainty covers.
    [Theory]
    [InlineData(95)]
    [InlineData(90)]
    [InlineData(75)]
    [InlineData(60)]
    public void Measure_zones_without_noise_are_inside_the_uncertainty(int quality)
    {
        var random = new Random(78);
        var (inside, count) = (0, 0);
        while (count < 60)
        {
            var first = new LabColor(25 + (60 * random.NextDouble()), (80 * random.NextDouble()) - 40, (80 * random.NextDouble()) - 40);
            var second = new LabColor(first.L + (8 * random.NextDouble()) - 4, first.A + 6, first.B - (10 * random.NextDouble()));
            if (IsShowable(first) && IsShowable(second))
            {
                var result = Compare((x, _) => x < Width / 2 ? first : second, (_, _) => 1.0, quality, 0.0);
                count++;
                inside += Math.Abs(result.Value!.Value - DeltaE2000.Between(first, second)) <= result.Uncertainty!.Value ? 1 : 0;
            }
        }

        Assert.InRange(inside, 0.95 * count, count);
    }

    // A photo that lies turned in its file is compared at the zones of the upright one.
    [Fact]
    public void Measure_turned_file_agrees_with_the_upright_one()
    {
        var (first, second) = (new LabColor(30, 22, -18), new LabColor(32, 15, -25));
        var upright = Store((x, _) => x < Width / 2 ? first : second, (_, _) => 1.0, 2.0);
        var turned = new byte[upright.Length];
        for (var i = 0; i < Width * Height; i++)
        {
            // As orientation 8 stores it: the upright photo's right column is the stored photo's top row.
            var (x, y) = (i % Width, i / Width);
            upright.AsSpan(3 * i, 3).CopyTo(turned.AsSpan(3 * (((Width - 1 - x) * Height) + y), 3));
        }

        var one = Measure(PhotoEncoder.EncodeJpeg(upright, Width, Height, 90));
        var other = Measure(WithOrientation(PhotoEncoder.EncodeJpeg(turned, Height, Width, 90), 8));

        Assert.Equal(one.Value!.Value, other.Value!.Value, 0.1);
        Assert.Equal(DeltaE2000.Between(first, second), other.Value!.Value, 0.3);
        Assert.Equal(one.Uncertainty!.Value, other.Uncertainty!.Value, 0.1);
    }

    [Fact]
    public void Measure_shadow_over_one_zone_is_refused()
    {
        var paint = new LabColor(45, 20, 10);

        var result = Compare((_, _) => paint, (x, _) => x < Width / 2 ? 1.0 : 0.55, 90);

        Assert.Equal("the zones differ in brightness alone: shade and a lighter paint look alike here", result.AbsentReason);
    }

    [Fact]
    public void Measure_lamp_over_one_zone_is_refused()
    {
        var result = Compare(
            (x, _) => x < Width / 2 ? new(45, 20, 10) : new(48, 26, 4),
            (x, y) => 1.0 + (3.0 * Math.Exp(-(Math.Pow(x - 70, 2) + Math.Pow(y - 70, 2)) / 1000.0)),
            90);

        Assert.Equal("the light differs inside a zone: a highlight or the edge of a shadow lies in it", result.AbsentReason);
    }

    private static bool IsShowable(LabColor color) =>
        CieLab.ToLinear(color) is var (red, green, blue)
        && Math.Min(red, Math.Min(green, blue)) > 0.002
        && Math.Max(red, Math.Max(green, blue)) < 0.95;

    private static Measurement Compare(
        Func<int, int, LabColor> color, Func<int, int, double> light, int quality, double noise = 2.0) =>
        Measure(PhotoEncoder.EncodeJpeg(Store(color, light, noise), Width, Height, quality));

    private static Measurement Measure(byte[] jpeg)
    {
        var options = new ImagingOptions();
        using var photo = new PhotoNormalizer(new GuardedPhotoDecoder(options), options).Normalize(
            jpeg, null, Sides, TestContext.Current.CancellationToken);
        return ZoneDifference.Measure(photo.Planes, Sides, photo.Stored!)[0];
    }

    private static byte[] Store(Func<int, int, LabColor> color, Func<int, int, double> light, double noise)
    {
        var random = new Random(8);
        var rgb = new byte[3 * Width * Height];
        for (var i = 0; i < Width * Height; i++)
        {
            var (red, green, blue) = CieLab.ToLinear(color(i % Width, i / Width));
            var factor = light(i % Width, i / Width);
            rgb[3 * i] = Stored(red * factor, noise, random);
            rgb[(3 * i) + 1] = Stored(green * factor, noise, random);
            rgb[(3 * i) + 2] = Stored(blue * factor, noise, random);
        }

        return rgb;
    }

    // Normal noise of so many codes.
    private static byte Stored(double linear, double codes, Random random)
    {
        var noise = 0.0;
        for (var i = 0; i < 12; i++)
        {
            noise += random.NextDouble() - 0.5;
        }

        return (byte)Math.Clamp(
            Math.Round((255.0 * SrgbTransfer.FromLinear(Math.Max(linear, 0.0))) + (codes * noise)), 0.0, 255.0);
    }

    // An EXIF block (TIFF, big-endian) with the one tag 0x0112.
    private static byte[] WithOrientation(byte[] jpeg, byte orientation) =>
    [
        .. jpeg[..2],
        0xFF, 0xE1, 0, 34, .. "Exif\0\0"u8,
        .. "MM"u8, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0,
        .. jpeg[2..],
    ];
}
