using CoatScan.Metrics;
using CoatScan.Metrics.Filters;
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

    // The second difference that proposes spots, at scale 1, is the kernel 0 1 0 / 1 -4 1 / 0 1 0 whose variance measures focus elsewhere
    // (Pech-Pacheco et al., ICPR 2000); it depends on what is shown, so that it is no measurement here. Table: quality.json, by OpenCV 4.6.0,
    // and the closed form of a product of sines behind a Gaussian, over whole periods.
    [Fact]
    public void FillResponse_has_the_tabled_variance_and_falls_with_blur()
    {
        var tabled = ReferenceData.Read("quality").GetProperty("lapvar");
        var sharp = Waves(Math.Round);

        // A third of the values is 127.5 or 177.5 but for the last bit of a sine, which rounds it up or down: 0.3 %.
        Assert.Equal(tabled.GetProperty("interior_only").GetDouble(), Variance(sharp, 1), 0.003 * 3531.7305);
        Assert.Equal(tabled.GetProperty("checker01").GetDouble(), Variance(Pattern.Draw(8, 8, (x, y) => 255 * ((x + y) % 2)), 1), 1e-6);
        Assert.Equal(tabled.GetProperty("constant").GetDouble(), Variance(Pattern.Draw(64, 64, (_, _) => 90), 1));
        Assert.Equal(tabled.GetProperty("theory_sharp").GetDouble(), Variance(Waves(value => value), 16), 0.1);
        var before = double.MaxValue;
        foreach (var blur in tabled.GetProperty("theory_blur").EnumerateObject())
        {
            var sigma = double.Parse(blur.Name, System.Globalization.CultureInfo.InvariantCulture);
            var variance = Variance(GaussianFilter.Apply(Waves(value => value), sigma), 16);

            // From 1 px on a sampled Gaussian is one; at 0.5 px its gain is a little more.
            Assert.Equal(blur.Value.GetDouble(), variance, Math.Max(0.02, (sigma < 1.0 ? 0.08 : 0.03) * blur.Value.GetDouble()));
            Assert.True(variance < before);
            before = variance;
        }
    }

    private static Plane Waves(Func<double, double> rounded) => Pattern.Draw(
        64, 64, (x, y) => rounded(127.5 + (100.0 * Math.Sin(2.0 * Math.PI * x / 8.0) * Math.Sin(2.0 * Math.PI * y / 8.0))));

    private static double Variance(Plane plane, int frame)
    {
        var values = new List<double>();
        var row = new float[plane.Width];
        for (var y = frame; y < plane.Height - frame; y++)
        {
            BlobSearch.FillResponse(plane, y, 1.0f, row);
            values.AddRange(row[frame..^frame].Select(value => (double)value));
        }

        var mean = values.Average();
        return values.Average(value => (value - mean) * (value - mean));
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

        var spots = SpotFinder.Find(plane, new bool[128 * 128])!;

        Assert.Equal(disks.Count, spots.Count + disks.Count(disk => (2 * disk.Radius) + 1 > SpotFinder.WidthLimitPx(128, 128)));
        Assert.All(spots, spot => Assert.Contains(disks, disk =>
            Math.Abs(disk.Column - spot.CenterXPx) < 0.5 && Math.Abs(disk.Row - spot.CenterYPx) < 0.5
            && Math.Abs((2.0 * disk.Radius) - spot.DiameterPx) < 0.6));
    }
}
