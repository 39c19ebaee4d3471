using CoatScan.Metrics;

namespace CoatScan.MetricsTests;

public sealed class FeatureVectorTests
{
    [Fact]
    public void Names_are_distinct_snake_case_and_as_many_as_the_values()
    {
        Assert.Equal(FeatureVector.Length, FeatureVector.Names.Distinct().Count());
        Assert.All(FeatureVector.Names, name => Assert.Matches("^[a-z][a-z0-9_]*$", name));
        var panel = Pattern.Gray(Pattern.Draw(90, 70, (x, y) => 0.2 + (0.001 * x)));
        Assert.Equal(FeatureVector.Length, FeatureVector.Measure(panel).Count);
    }

    [Theory]
    [InlineData(0.0, 64)]
    [InlineData(1.0, 64)]
    [InlineData(0.2, 64)]
    [InlineData(0.2, 3)]
    [InlineData(0.2, 1)]
    public void Measure_degenerate_panel_is_finite(double level, int side)
    {
        var features = FeatureVector.Measure(Pattern.Gray(Pattern.Draw(side, side, (_, _) => level)));

        Assert.All(features, value => Assert.True(float.IsFinite(value)));
    }

    [Fact]
    public void Measure_same_scene_at_twice_the_resolution_hardly_changes()
    {
        // A scene drawn at 1024 px and the same scene averaged to 512 px.
        var fine = Pattern.Draw(
            1024, 256, (x, y) => 0.2 + (0.05 * Math.Sin(x / 25.0) * Math.Cos(y / 31.0)) + (0.0001 * x));
        var coarse = Pattern.Draw(512, 128, (x, y) => 0.25 * (
            fine[2 * x, 2 * y] + fine[(2 * x) + 1, 2 * y] + fine[2 * x, (2 * y) + 1] + fine[(2 * x) + 1, (2 * y) + 1]));

        var first = FeatureVector.Measure(Pattern.Gray(fine));
        var second = FeatureVector.Measure(Pattern.Gray(coarse));

        for (var i = 0; i < first.Count; i++)
        {
            Assert.True(Math.Abs(first[i] - second[i]) < 1e-3, $"{FeatureVector.Names[i]}: {first[i]} and {second[i]}");
        }
    }
}
