using CoatScan.Metrics;
using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class BlobLadderTests
{
    // Closed form for a disk: (r^2 / s^2) exp(-r^2 / (2 s^2)), largest, 2 / e, at s = r / sqrt 2 (Lindeberg 1998). A digital disk is a
    // little off, and so are four differences instead of a Laplacian.
    [Theory]
    [InlineData(4)]
    [InlineData(6)]
    [InlineData(9)]
    [InlineData(12)]
    public void Response_disk_peaks_at_its_radius_with_two_over_e(int radius)
    {
        var middle = 4 * radius;
        var disk = Pattern.Draw((2 * middle) + 1, (2 * middle) + 1, (x, y) =>
            ((x - middle) * (x - middle)) + ((y - middle) * (y - middle)) <= radius * radius ? 0.0 : 1.0);
        using var scope = new PlaneScope();
        var (bestSigma, best) = (0.0, 0.0);
        for (var sigma = 0.4 * radius; sigma < radius; sigma += 0.02 * radius)
        {
            var response = BlobLadder.Response(disk, sigma, scope)[middle, middle];
            var ratio = radius * radius / (sigma * sigma);
            Assert.Equal(ratio * Math.Exp(-ratio / 2.0), response, 0.03);
            (bestSigma, best) = response > best ? (sigma, response) : (bestSigma, best);
        }

        var tabled = ReferenceData.Read("blobs").GetProperty("scale_normalised_LoG_disk").GetProperty("measured")
            .GetProperty(radius.ToString(System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(tabled.GetProperty("peak").GetDouble(), best, 0.005);
        Assert.Equal(tabled.GetProperty("sigma_peak").GetDouble(), bestSigma, 0.03 * radius);
    }

    // The reference's mixed disks: places, and the radius that the nearest scale stands for.
    [Fact]
    public void Find_mixed_disks_are_where_they_were_drawn()
    {
        var disks = ReferenceData.Read("blobs").GetProperty("mixed").GetProperty("disks").EnumerateArray()
            .Select(disk => (Row: disk[0].GetInt32(), Column: disk[1].GetInt32(), Radius: disk[2].GetInt32())).ToList();
        var plane = Pattern.Draw(128, 128, (x, y) => disks.Any(disk =>
            ((x - disk.Column) * (x - disk.Column)) + ((y - disk.Row) * (y - disk.Row)) <= disk.Radius * disk.Radius)
            ? 40.0 : 60.0);

        var spots = SpotFinder.Find(plane, new bool[128 * 128]);

        Assert.Equal(disks.Count, spots.Count + disks.Count(disk => (2 * disk.Radius) + 1 > SpotFinder.WidthLimitPx(128, 128)));
        Assert.All(spots, spot => Assert.Contains(disks, disk =>
            Math.Abs(disk.Column - spot.CenterXPx) < 0.5 && Math.Abs(disk.Row - spot.CenterYPx) < 0.5
            && Math.Abs((2.0 * disk.Radius) - spot.DiameterPx) < 0.6));
    }
}
