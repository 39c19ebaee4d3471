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
    private static byte[] Scene(double blurPx, double exposure, double clippedFraction)
    {
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
            if (y < clippedRows)
            {
                target.Fill(255);
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
