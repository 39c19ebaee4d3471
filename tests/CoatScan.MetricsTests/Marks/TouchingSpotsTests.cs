using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Marks;

namespace CoatScan.MetricsTests.Marks;

public sealed class TouchingSpotsTests
{
    [Theory]
    [InlineData(8.0, 8.0, 16.0, 2)] // They touch.
    [InlineData(8.0, 8.0, 14.0, 2)] // They overlap a little.
    [InlineData(8.0, 4.0, 12.0, 2)] // A small one at a large one.
    [InlineData(8.0, 8.0, 6.0, 1)] // One spot, a little long.
    public void Find_two_disks_are_two_until_they_are_one(double first, double second, double distance, int expected)
    {
        var plane = Pattern.Draw(200, 160, (x, y) =>
            Math.Pow(x - 80, 2) + Math.Pow(y - 80, 2) <= first * first
                || Math.Pow(x - 80 - distance, 2) + Math.Pow(y - 80, 2) <= second * second ? 40.0 : 60.0);

        Assert.Equal(expected, SpotFinder.Find(plane, new bool[200 * 160])!.Count);
    }

    // As a photo shows them, blurred by a pixel: the corners beside the place where they touch fill up.
    [Theory]
    [InlineData(10.0, 3.0, 13.0, 2)] // A speck at a large spot.
    [InlineData(10.0, 5.0, 15.0, 2)]
    [InlineData(10.0, 3.0, 9.0, 1)] // A bump of the large spot.
    public void Find_blurred_small_disk_at_a_large_one_stays_apart_and_a_bump_does_not(
        double first, double second, double distance, int expected)
    {
        var sharp = Pattern.Draw(200, 160, (x, y) =>
            Math.Pow(x - 80, 2) + Math.Pow(y - 80, 2) <= first * first
                || Math.Pow(x - 80 - (0.8 * distance), 2) + Math.Pow(y - 80 - (0.6 * distance), 2) <= second * second ? 40.0 : 60.0);

        Assert.Equal(expected, SpotFinder.Find(GaussianFilter.Apply(sharp, 1.0), new bool[200 * 160])!.Count);
    }

    // A flake is no disk: what sticks out at its corner belongs to it.
    [Fact]
    public void Find_corner_of_a_flake_is_no_speck_of_its_own()
    {
        var sharp = Pattern.Draw(240, 200, (x, y) => (x is >= 90 and < 104 && y is >= 80 and < 102)
            || Math.Pow(x - 107, 2) + Math.Pow(y - 84, 2) <= 9.0 ? 40.0 : 60.0);

        Assert.Single(SpotFinder.Find(GaussianFilter.Apply(sharp, 1.0), new bool[240 * 200])!);
    }

    [Fact]
    public void Find_square_is_one_spot_of_its_area()
    {
        var plane = Pattern.Draw(160, 160, (x, y) => x is >= 60 and < 76 && y is >= 60 and < 76 ? 40.0 : 60.0);

        Assert.Equal(256, Assert.Single(SpotFinder.Find(plane, new bool[160 * 160])!).AreaPx);
    }
}
