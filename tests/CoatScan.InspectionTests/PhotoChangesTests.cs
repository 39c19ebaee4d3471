using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Metrics;
using CoatScan.Metrics.Ratings;

namespace CoatScan.InspectionTests;

/// <summary>A panel drawn once and photographed in many ways: stored coarser, turned, smaller, larger.</summary>
public sealed class PhotoChangesTests(ITestOutputHelper output)
{
    private const int Width = 900;
    private const int Height = 700;
    private const double MmPerPx = 0.2;

    // Number, density and area of the specks, and these alone.
    private const int MostWithheldAtHalfSize = 3;

    private static readonly string[] Metrics =
    [
        "spot_count", "spot_density_per_dm2", "spot_area_fraction", "spot_diameter_mm", "spot_diameter_large_mm", "spot_dark_share",
        "spot_nearest_ratio", "rust_colored_fraction", "even_red_brown_fraction", "stain_colored_fraction", "rust_patch_count",
        "rust_patch_large_mm", "rust_nearest_ratio", "film_loss_fraction", "film_loss_large_mm",
    ];

    private static readonly HashSet<RatingSubject> Subjects = [RatingSubject.Rust, RatingSubject.FilmLoss, RatingSubject.Spots];

    // Paints of other hue and lightness, in other light, with other marks in other places. Rust is not looked for on paint of its own hue.
    public static TheoryData<int, int, int, int, double> Panels => new()
    {
        { 21, 70, 100, 150, 0.01 },
        { 22, 200, 202, 205, -0.03 },
        { 23, 60, 62, 66, 0.02 },
        { 24, 40, 110, 70, 0.04 },
        { 25, 150, 154, 160, 0.0 },
        { 26, 110, 60, 130, -0.02 },
    };

    [Theory]
    [MemberData(nameof(Panels))]
    public void Measure_same_panel_in_other_photos_agrees_within_the_uncertainty_and_rates_alike(
        int seed, int red, int green, int blue, double slope)
    {
        var panel = Draw(seed, (red, green, blue), slope);
        var reference = Measure(PhotoEncoder.EncodePng(panel, Width, Height), MmPerPx);
        var (held, all, withheld) = (0, 0, 0);
        foreach (var (name, photo, mmPerPx) in Changes(panel))
        {
            var changed = Measure(photo, mmPerPx);
            foreach (var metric in Metrics)
            {
                var (one, other) = (reference[metric], changed[metric]);
                if (other.Value is null)
                {
                    // At half size the specks are 4 px wide, under what is sure: their number may be taken back. It counts as not held.
                    Assert.Equal("resized 0.5", name);
                    Assert.Contains("marks were found, but so many are small or faint", other.AbsentReason, StringComparison.Ordinal);
                    withheld++;
                    all++;
                    continue;
                }

                var within = Math.Abs(one.Value!.Value - other.Value.Value)
                    <= Math.Sqrt(Math.Pow(one.Uncertainty!.Value, 2) + Math.Pow(other.Uncertainty!.Value, 2)) + 1e-12;
                all++;
                held += within ? 1 : 0;
                if (!within)
                {
                    output.WriteLine($"{name}: {metric} {one.Value} give or take {one.Uncertainty}, then {other.Value} {other.Uncertainty}");
                }
            }

            var (first, second) = (string.Join(", ", Classes(reference)), string.Join(", ", Classes(changed)));
            Assert.True(first == second, $"{name}: {first}, then {second}");
        }

        output.WriteLine($"{held} of {all} within, {withheld} taken back");
        Assert.InRange(withheld, 0, MostWithheldAtHalfSize);
        Assert.True(held >= 0.95 * all);
    }

    // Designations without the range of the uncertainty, which may well differ.
    private static IEnumerable<string> Classes(Dictionary<string, Measurement> values) =>
        PanelRatings.Rate([.. values.Values], Subjects).Select(rating => $"{rating.Standard} {rating.Designation.Split(" (")[0]}");

    private static IEnumerable<(string Name, byte[] Photo, double MmPerPx)> Changes(byte[] panel)
    {
        foreach (var quality in new[] { 95, 80, 70, 60 })
        {
            yield return ($"JPEG {quality}", PhotoEncoder.EncodeJpeg(panel, Width, Height, quality), MmPerPx);
        }

        for (var orientation = 2; orientation <= 8; orientation++)
        {
            var (turned, width, height) = Turn(panel, orientation);
            yield return ($"orientation {orientation}", PhotoEncoder.EncodePng(turned, width, height), MmPerPx);
        }

        foreach (var factor in new[] { 0.5, 0.7, 1.4, 2.0 })
        {
            var (resized, width, height) = Resize(panel, factor);
            yield return ($"resized {factor}", PhotoEncoder.EncodePng(resized, width, height), MmPerPx / factor);
        }
    }

    private static Dictionary<string, Measurement> Measure(byte[] photo, double mmPerPx)
    {
        var options = new ImagingOptions();
        using var normalized = new PhotoNormalizer(new GuardedPhotoDecoder(options), options)
            .Normalize(photo, mmPerPx, CancellationToken.None);
        return PanelMetrics.Measure(normalized.Planes, normalized.Capture, CancellationToken.None)
            .Measurements.ToDictionary(one => one.Metric);
    }

    // Rust on 1.35 % of the area, in the middle of what is inside the classes of all three standards (1 to 3, 0.71 to 2.8, 0.55 to 1.7 %), in disks of 5 to 10 px, mottled; specks of half the paint's light, 4 to 7 px;
    // edges one pixel wide. Nothing touches.
    private static byte[] Draw(int seed, (double R, double G, double B) paint, double slope)
    {
        var random = new Random(seed);
        var disks = new List<(double X, double Y, double Radius, bool IsRust)>();
        var rustArea = 0.0;
        var specks = 0;
        while (specks < 40)
        {
            var isRust = rustArea < 0.0135 * Width * Height;
            var radius = isRust ? 5.0 + (5.0 * random.NextDouble()) : 4.0 + (3.0 * random.NextDouble());
            var (x, y) = (25.0 + ((Width - 50) * random.NextDouble()), 25.0 + ((Height - 50) * random.NextDouble()));
            if (disks.All(disk => Math.Sqrt(Math.Pow(disk.X - x, 2) + Math.Pow(disk.Y - y, 2)) > disk.Radius + radius + 10.0))
            {
                disks.Add((x, y, radius, isRust));
                rustArea += isRust ? Math.PI * radius * radius : 0.0;
                specks += isRust ? 0 : 1;
            }
        }

        var rgb = new byte[Width * Height * 3];
        var mottle = new double[(Width / 4 + 1) * (Height / 4 + 1)];
        for (var i = 0; i < mottle.Length; i++)
        {
            mottle[i] = 0.8 + (0.4 * random.NextDouble());
        }

        for (var i = 0; i < Width * Height; i++)
        {
            var (x, y) = (i % Width, i / Width);
            var (r, g, b) = (paint.R + (slope * x), paint.G + (slope * x), paint.B + (slope * x));
            foreach (var disk in disks)
            {
                var distance = Math.Sqrt(Math.Pow(disk.X - x, 2) + Math.Pow(disk.Y - y, 2));
                var share = Math.Clamp(disk.Radius - distance + 0.5, 0.0, 1.0);
                if (share > 0.0)
                {
                    var shade = mottle[(y / 4 * (Width / 4 + 1)) + (x / 4)];
                    var (ir, ig, ib) = disk.IsRust ? (120.0 * shade, 62.0 * shade, 30.0 * shade) : (0.5 * paint.R, 0.5 * paint.G, 0.5 * paint.B);
                    (r, g, b) = (r + (share * (ir - r)), g + (share * (ig - g)), b + (share * (ib - b)));
                }
            }

            var noise = 2.0 * (random.NextDouble() + random.NextDouble() - 1.0);
            rgb[3 * i] = ToByte(r + noise);
            rgb[(3 * i) + 1] = ToByte(g + noise);
            rgb[(3 * i) + 2] = ToByte(b + noise);
        }

        return rgb;
    }

    private static byte ToByte(double value) => (byte)Math.Clamp(Math.Round(value), 0.0, 255.0);

    private static (byte[] Rgb, int Width, int Height) Turn(byte[] rgb, int orientation)
    {
        var (mirrorX, mirrorY, turn) = (orientation is 2 or 3 or 7 or 8, orientation is 3 or 4 or 6 or 7, orientation >= 5);
        var (width, height) = turn ? (Height, Width) : (Width, Height);
        var target = new byte[rgb.Length];
        for (var i = 0; i < width * height; i++)
        {
            var (u, v) = turn ? (i / width, i % width) : (i % width, i / width);
            var source = ((mirrorY ? Height - 1 - v : v) * Width) + (mirrorX ? Width - 1 - u : u);
            rgb.AsSpan(3 * source, 3).CopyTo(target.AsSpan(3 * i, 3));
        }

        return (target, width, height);
    }

    // Each target pixel is the mean of 4 x 4 bilinear samples of its area.
    private static (byte[] Rgb, int Width, int Height) Resize(byte[] rgb, double factor)
    {
        var (width, height) = ((int)(Width * factor), (int)(Height * factor));
        var target = new byte[width * height * 3];
        for (var i = 0; i < target.Length; i++)
        {
            var (x, y, channel) = (i / 3 % width, i / 3 / width, i % 3);
            var sum = 0.0;
            for (var k = 0; k < 16; k++)
            {
                sum += Sample(rgb, (x + ((k % 4) + 0.5) / 4.0) / factor, (y + ((k / 4) + 0.5) / 4.0) / factor, channel);
            }

            target[i] = ToByte(sum / 16.0);
        }

        return (target, width, height);
    }

    private static double Sample(byte[] rgb, double x, double y, int channel)
    {
        var (u, v) = (Math.Clamp(x - 0.5, 0.0, Width - 1.001), Math.Clamp(y - 0.5, 0.0, Height - 1.001));
        var (column, row) = ((int)u, (int)v);
        double At(int dx, int dy) => rgb[(3 * (((row + dy) * Width) + column + dx)) + channel];
        var upper = At(0, 0) + ((u - column) * (At(1, 0) - At(0, 0)));
        var lower = At(0, 1) + ((u - column) * (At(1, 1) - At(0, 1)));
        return upper + ((v - row) * (lower - upper));
    }
}
