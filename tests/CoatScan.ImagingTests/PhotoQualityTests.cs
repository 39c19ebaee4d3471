using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Metrics.Color;

namespace CoatScan.ImagingTests;

public sealed class PhotoQualityTests
{
    private const int SidePx = 500;

    [Fact]
    public void Normalize_good_photo_has_no_issue()
    {
        NormalizedPhoto photo = TestPhotos.Normalize(Scene(blurPx: 0.7, exposure: 1, clippedFraction: 0), mmPerPx: 0.2);

        Assert.Empty(photo.Report.Issues);
    }

    [Fact]
    public void Normalize_blur_sweep_reports_once_and_for_all_from_some_blur_on()
    {
        double[] blurs = [0.5, 0.8, 1.1, 1.4, 2.0, 2.5, 3, 4, 5];

        bool[] isBlurred = [.. blurs.Select(blur => Has(PhotoIssueCode.Blurred, Scene(blur, 1, 0)))];

        // The limit is 1.5 px of Gaussian blur.
        Assert.Equal([false, false, false, false, true, true, true, true, true], isBlurred);
    }

    [Fact]
    public void Normalize_darkness_sweep_reports_once_and_for_all_from_some_exposure_on()
    {
        double[] stops = [0, 1, 2, 3, 4, 5, 6, 7];

        bool[] isDark = [.. stops.Select(stop => Has(PhotoIssueCode.TooDark, Scene(0.7, Math.Pow(2, -stop), 0)))];

        AssertRises(isDark);
        Assert.False(isDark[1]);
        Assert.True(isDark[6]);
    }

    [Fact]
    public void Normalize_dark_panel_that_mirrors_something_bright_is_not_too_dark()
    {
        byte[] rgb = TestPhotos.FlatRgb(SidePx, SidePx, 12, 12, 14);
        for (int y = 0; y < 50; y++)
        {
            rgb.AsSpan(3 * SidePx * y, 3 * SidePx).Fill(190);
        }

        Assert.False(Has(PhotoIssueCode.TooDark, PhotoEncoder.EncodePng(rgb, SidePx, SidePx)));
    }

    [Theory]
    [InlineData(0.0, false)]
    [InlineData(0.03, false)]
    [InlineData(0.049, false)]
    [InlineData(0.052, true)]
    [InlineData(0.3, true)]
    [InlineData(1.0, true)]
    public void Normalize_clipping_sweep_reports_above_5_percent(double clippedFraction, bool isGlare)
    {
        NormalizedPhoto photo = TestPhotos.Normalize(Scene(0.7, 1, clippedFraction));

        PhotoIssue? glare = photo.Report.Issues.SingleOrDefault(issue => issue.Code == PhotoIssueCode.Glare);

        Assert.Equal(isGlare, glare is not null);
        Assert.True(glare is null || glare.Detail.Contains("the limit is 5 %", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(399, null, true)]
    [InlineData(400, null, false)]
    [InlineData(401, null, false)]
    [InlineData(401, 1.0, false)]
    [InlineData(401, 1.01, true)]
    public void Normalize_resolution_around_its_limits(int shorterSidePx, double? mmPerPx, bool isLow)
    {
        byte[] png = PhotoEncoder.EncodePng(TestPhotos.FlatRgb(600, shorterSidePx, 90, 90, 90), 600, shorterSidePx);

        NormalizedPhoto photo = TestPhotos.Normalize(png, mmPerPx);

        Assert.Equal(isLow, photo.Report.Issues.Any(issue => issue.Code == PhotoIssueCode.LowResolution));
        Assert.All(photo.Report.Issues, issue => Assert.NotEmpty(issue.HowToFix));
    }

    [Fact]
    public void Normalize_noise_sweep_reports_once_and_for_all_from_some_noise_on()
    {
        double[] codes = [0, 1, 2, 4, 6, 10, 15, 25];

        bool[] isNoisy = [.. codes.Select(code => Has(PhotoIssueCode.Noisy, Scene(0.7, 1, 0, code)))];

        // One code is about 0.4 L* here, the limit is L* 3.
        Assert.Equal([false, false, false, false, false, true, true, true], isNoisy);
    }

    [Fact]
    public void Normalize_compression_sweep_reports_once_and_for_all_from_some_quality_down()
    {
        int[] qualities = [95, 85, 75, 60, 50, 40, 30, 20, 15, 10, 5];
        byte[] rgb = TestPhotos.PatternRgb(SidePx, SidePx);

        bool[] isCompressed =
            [.. qualities.Select(quality => Has(PhotoIssueCode.Compressed, PhotoEncoder.EncodeJpeg(rgb, SidePx, SidePx, quality)))];

        AssertRises(isCompressed);
        Assert.False(isCompressed[4]);
        Assert.True(isCompressed[8]);
    }

    [Fact]
    public void Normalize_png_was_not_compressed() =>
        Assert.False(Has(PhotoIssueCode.Compressed, TestPhotos.PatternPng(SidePx, SidePx)));

    [Fact]
    public void Normalize_lattice_sweep_reports_once_and_for_all_from_some_contrast_on()
    {
        int[] contrasts = [0, 1, 3, 6, 12, 25, 50];

        bool[] isScreen = [.. contrasts.Select(contrast => Has(PhotoIssueCode.ScreenPhoto, Display(contrast)))];

        AssertRises(isScreen);
        Assert.False(isScreen[0]);
        Assert.True(isScreen[^1]);
    }

    [Fact]
    public void Normalize_bend_sweep_reports_until_tones_differ_enough()
    {
        // Codes by which a soft wave of 160 px rises over an even gray.
        double[] codes = [0, 0.5, 1, 2, 4, 8, 16];

        bool[] hasTones = [.. codes.Select(rise => !Has(PhotoIssueCode.Featureless, Wave(rise)))];

        AssertRises(hasTones);
        Assert.False(hasTones[1]);
        Assert.True(hasTones[^1]);
    }

    [Fact]
    public void Normalize_noise_and_a_slow_change_of_light_are_no_features()
    {
        var random = new Random(8);

        Assert.True(Has(PhotoIssueCode.Featureless, Tones((x, y) => 90 + (0.1 * x) + (25 * (random.NextDouble() - 0.5)))));
        Assert.False(Has(PhotoIssueCode.Featureless, Tones((x, y) => (y is > 240 and < 246 ? 40 : 90 + (0.1 * x)))));
    }

    [Fact]
    public void Normalize_every_issue_says_what_it_measured_what_still_holds_and_what_to_do()
    {
        byte[][] photos =
        [
            Scene(3, 1, 0), Scene(0.7, 1, 0.3), Scene(0.7, 0.005, 0), Scene(0.7, 1, 0, noiseCodes: 25), Display(50),
            PhotoEncoder.EncodeJpeg(TestPhotos.PatternRgb(SidePx, SidePx), SidePx, SidePx, 10),
            PhotoEncoder.EncodePng(TestPhotos.FlatRgb(300, 300, 90, 90, 90), 300, 300),
        ];
        var issues = photos.SelectMany(photo => TestPhotos.Normalize(photo).Report.Issues).ToList();

        Assert.Equal(9, issues.Select(issue => issue.Code).Distinct().Count());
        Assert.All(issues, issue =>
        {
            Assert.True(issue.Code == PhotoIssueCode.NoScale || issue.Detail.Any(char.IsDigit));
            Assert.EndsWith(".", issue.Limits, StringComparison.Ordinal);
            Assert.EndsWith(".", issue.HowToFix, StringComparison.Ordinal);
        });
    }

    private static bool Has(PhotoIssueCode code, byte[] photo) =>
        TestPhotos.Normalize(photo).Report.Issues.Any(issue => issue.Code == code);

    private static void AssertRises(bool[] reported)
    {
        for (int i = 1; i < reported.Length; i++)
        {
            Assert.True(reported[i] || !reported[i - 1]);
        }
    }

    /// <summary>Stripes with edges of a known Gaussian blur, on a gray panel; the top rows are clipped to white.</summary>
    private static byte[] Scene(double blurPx, double exposure, double clippedFraction, double noiseCodes = 0)
    {
        var random = new Random(4);
        var rgb = new byte[3 * SidePx * SidePx];
        var row = new byte[3 * SidePx];
        for (int x = 0; x < SidePx; x++)
        {
            // A stripe every 120 px; the error function is a step behind a Gaussian.
            double distance = Math.Abs((x % 120) - 60) - 30.0;
            double step = 0.5 * (1 + Erf(distance / (blurPx * Math.Sqrt(2))));

            // In L*, in which the blur is measured.
            double lightness = 35 + (30 * step);
            double luminance = Math.Pow((lightness + 16) / 116, 3) * exposure;
            row.AsSpan(3 * x, 3).Fill(SrgbTransfer.ToByte(luminance));
        }

        int clippedRows = (int)Math.Round(clippedFraction * SidePx);
        for (int y = 0; y < SidePx; y++)
        {
            Span<byte> target = rgb.AsSpan(3 * SidePx * y, 3 * SidePx);
            row.CopyTo(target);
            for (int x = 0; noiseCodes > 0 && x < SidePx; x++)
            {
                // The sum of four uniform numbers is close enough to a bell.
                double noise = random.NextDouble() + random.NextDouble() + random.NextDouble() + random.NextDouble() - 2;
                target.Slice(3 * x, 3).Fill((byte)Math.Clamp(row[3 * x] + (noiseCodes * Math.Sqrt(3) * noise), 0, 255));
            }

            if (y < clippedRows)
            {
                target.Fill(255);
            }
        }

        return PhotoEncoder.EncodePng(rgb, SidePx, SidePx);
    }

    private static byte[] Wave(double codes) =>
        Tones((x, _) => 120.5 + (codes * Math.Sin(2 * Math.PI * x / 160)));

    private static byte[] Tones(Func<int, int, double> code)
    {
        var rgb = new byte[3 * SidePx * SidePx];
        for (int i = 0; i < SidePx * SidePx; i++)
        {
            rgb.AsSpan(3 * i, 3).Fill((byte)code(i % SidePx, i / SidePx));
        }

        return PhotoEncoder.EncodePng(rgb, SidePx, SidePx);
    }

    /// <summary>Dots of a display, 3.1 px apart and turned, over gray.</summary>
    private static byte[] Display(int contrast)
    {
        var rgb = new byte[3 * SidePx * SidePx];
        for (int y = 0; y < SidePx; y++)
        {
            for (int x = 0; x < SidePx; x++)
            {
                double u = ((0.98 * x) + (0.2 * y)) * 2 * Math.PI / 3.1;
                double v = ((0.98 * y) - (0.2 * x)) * 2 * Math.PI / 3.1;
                rgb.AsSpan(3 * ((y * SidePx) + x), 3).Fill((byte)(120 + (contrast * (Math.Cos(u) + Math.Cos(v)) / 2)));
            }
        }

        return PhotoEncoder.EncodePng(rgb, SidePx, SidePx);
    }

    // Abramowitz and Stegun 7.1.26, error below 1.5e-7.
    private static double Erf(double x)
    {
        double t = 1 / (1 + (0.3275911 * Math.Abs(x)));
        double tail = t * (0.254829592 + (t * (-0.284496736 + (t * (1.421413741 + (t * (-1.453152027 + (t * 1.061405429))))))));
        return Math.Sign(x) * (1 - (tail * Math.Exp(-x * x)));
    }
}
