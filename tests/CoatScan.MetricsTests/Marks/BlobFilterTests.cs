using CoatScan.Metrics;
using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class BlobFilterTests
{
    // Closed form for a disk: (r^2 / s^2) exp(-r^2 / (2 s^2)), largest, 2 / e, at s = r / sqrt 2. A digital disk is a little off.
    [Theory]
    [InlineData(4)]
    [InlineData(6)]
    [InlineData(9)]
    [InlineData(12)]
    public void Apply_disk_peaks_at_its_radius_with_two_over_e(int radius)
    {
        var disk = Pattern.Draw(8 * radius + 1, 8 * radius + 1, (x, y) =>
            ((x - (4 * radius)) * (x - (4 * radius))) + ((y - (4 * radius)) * (y - (4 * radius))) <= radius * radius
                ? 0.0 : 1.0);
        using var scope = new PlaneScope();
        var (bestSigma, best) = (0.0, 0.0);
        for (var sigma = 0.4 * radius; sigma < radius; sigma += 0.02 * radius)
        {
            var response = BlobFilter.Apply(disk, sigma, scope)[4 * radius, 4 * radius];
            Assert.Equal(radius * radius / (sigma * sigma) * Math.Exp(-radius * radius / (2.0 * sigma * sigma)), response, 0.02);
            (bestSigma, best) = response > best ? (sigma, response) : (bestSigma, best);
        }

        Assert.Equal(2.0 / Math.E, best, 0.003);
        Assert.Equal(BlobFilter.SigmaOfRadius(radius), bestSigma, 0.03 * radius);
        var tabled = ReferenceData.Read("blobs").GetProperty("scale_normalised_LoG_disk").GetProperty("measured")
            .GetProperty(radius.ToString(System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(tabled.GetProperty("peak").GetDouble(), best, 0.002);
    }
}
