using System.Globalization;
using System.Text.Json;
using CoatScan.Metrics.Ratings;
using CsCheck;

namespace CoatScan.MetricsTests.Ratings;

public sealed class RatingTableTests
{
    private const double Epsilon = 1e-9;

    private static JsonElement Tables => ReferenceData.Read("ratings");

    // Table 1 of ASTM D610 as reproduced: each limit belongs to the better grade, what is just above it to the next.
    [Fact]
    public void Grade_every_limit_and_just_above()
    {
        foreach (var entry in Tables.GetProperty("astm_d610").GetProperty("upper_pct_inclusive").EnumerateObject())
        {
            var (grade, upper) = (Number(entry.Name), entry.Value.GetDouble());
            Assert.Equal(grade, AstmD610.Grade(upper));
            Assert.Equal(Math.Max(0, grade - 1), AstmD610.Grade(upper + Epsilon));
        }
    }

    [Fact]
    public void Grade_tabled_cases()
    {
        foreach (var entry in Tables.GetProperty("astm_d610").GetProperty("cases").EnumerateArray())
        {
            Assert.Equal(entry[1].GetInt32(), AstmD610.Grade(entry[0].GetDouble()));
        }
    }

    // The continuous form of the table between 0.01 and 10 %: grade = 6 - 2 log10(percent), rounded up to whole grades inside.
    [Fact]
    public void Grade_at_whole_values_of_the_continuous_form()
    {
        foreach (var entry in Tables.GetProperty("astm_d610").GetProperty("log_form").GetProperty("cases").EnumerateArray())
        {
            var (percent, form) = (entry[0].GetDouble(), entry[1].GetDouble());
            Assert.InRange(AstmD610.Grade(percent) - form, -1.0, 1.0);
        }
    }

    [Fact]
    public void Degree_cuts_are_the_conventions_and_nominals_are_their_own()
    {
        var cuts = Tables.GetProperty("iso4628_3").GetProperty("cuts_geometric_mean").EnumerateObject()
            .Select(cut => cut.Value.GetDouble()).ToList();
        for (var i = 0; i < cuts.Count; i++)
        {
            Assert.Equal(i + 1, Iso4628Rust.Degree(cuts[i] * (1.0 - 1e-5)));
            Assert.Equal(i + 2, Iso4628Rust.Degree(cuts[i] * (1.0 + 1e-5)));
        }

        Assert.Equal([0, 1, 2, 3, 4, 5, 5], new[] { 0.0, 0.05, 0.5, 1.0, 8.0, 40.0, 50.0 }.Select(Iso4628Rust.Degree));
    }

    [Fact]
    public void Quantity_of_flaking_nominals_are_their_own_and_sizes_change_at_their_limits()
    {
        var flaking = Tables.GetProperty("iso4628_5_flaking");
        foreach (var entry in flaking.GetProperty("quantity_pct").EnumerateObject())
        {
            Assert.Equal(Number(entry.Name), Iso4628Flaking.Quantity(entry.Value.GetDouble()));
        }

        foreach (var entry in flaking.GetProperty("size_mm").EnumerateObject())
        {
            if (entry.Value.ValueKind == JsonValueKind.Number)
            {
                var upper = entry.Value.GetDouble();
                Assert.Equal(Number(entry.Name), Iso4628Flaking.Size(upper));
                Assert.Equal(Number(entry.Name) + 1, Iso4628Flaking.Size(upper + Epsilon));
            }
        }
    }

    [Fact]
    public void Size_of_defects_changes_at_the_limits()
    {
        foreach (var entry in Tables.GetProperty("iso4628_1").GetProperty("size_upper_mm").EnumerateObject())
        {
            var upper = entry.Value.GetDouble();
            var expected = Number(entry.Name);
            Assert.Equal(expected, Iso4628Size.Class(upper));
            Assert.True(Iso4628Size.Class(upper + Epsilon) > expected);
        }

        Assert.Equal([4, 5], new[] { 1.0, 1.0 + Epsilon }.Select(Iso4628Size.CrackSize));
    }

    // E-1 of the reference: 16 disks of 49 px in 160 x 160 are 3.0625 %: grade 4; between the nominal areas of 4 and 5, nearer to 4.
    [Fact]
    public void Ratings_of_the_grid_of_sixteen_disks()
    {
        Assert.Equal(4, AstmD610.Grade(3.0625));
        Assert.Equal(4, Iso4628Flaking.Quantity(3.0625));
        Assert.Equal(4, Iso4628Rust.Degree(3.0625));
    }

    [Fact]
    public void Ratings_never_improve_as_the_area_grows() =>
        Gen.Select(Gen.Double[0.0, 100.0], Gen.Double[0.0, 100.0]).Sample((one, other) =>
        {
            var (less, more) = (Math.Min(one, other), Math.Max(one, other));
            return AstmD610.Grade(more) <= AstmD610.Grade(less)
                && Iso4628Rust.Degree(more) >= Iso4628Rust.Degree(less)
                && Iso4628Flaking.Quantity(more) >= Iso4628Flaking.Quantity(less);
        });

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}
