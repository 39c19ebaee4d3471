using System.Text.Json;
using CoatScan.Findings;

namespace CoatScan.DiagnosisTests;

public class SprayDayTests
{
    private static readonly SprayDayPlanner Planner = new(Known.Base);

    private static readonly JsonElement Reference = JsonDocument.Parse(
        File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "TestData", "science", "dewpoint.json"))).RootElement;

    // Column 3 of the table holds the constants that the knowledge base states.
    [Fact]
    public void Of_every_row_of_the_reference_table_agrees_within_a_twentieth_of_a_degree()
    {
        Assert.Equal(new MagnusConstants(17.62, 243.12), Known.Base.SprayDay.Magnus);
        double[][] rows = [.. Reference.GetProperty("dew").EnumerateArray().Select(Numbers)];
        Assert.Equal(99, rows.Length);
        Assert.All(rows, row => Assert.Equal(row[3], DewPoint.Of(row[0], row[1], Known.Base.SprayDay.Magnus), 0.05));
    }

    // Check values of our trade notes, one decimal.
    [Theory]
    [InlineData(20, 50, 9.3)]
    [InlineData(25, 60, 16.7)]
    [InlineData(30, 80, 26.2)]
    [InlineData(15, 85, 12.5)]
    [InlineData(20, 85, 17.4)]
    public void Plan_dew_point_is_that_of_the_air(double airC, double humidity, double expected) =>
        Assert.Equal(expected, Plan(airC, humidity).DewPointC, 0.05);

    [Fact]
    public void Plan_painting_window_of_the_reference_follows_both_rules()
    {
        foreach (JsonElement row in Reference.GetProperty("painting_window").GetProperty("rows").EnumerateArray())
        {
            JsonElement[] cells = [.. row.EnumerateArray()];
            SprayPlan plan = Plan(cells[0].GetDouble(), cells[1].GetDouble(), cells[2].GetDouble());
            Assert.Equal(cells[4].GetDouble(), plan.MarginC, 0.05);
            Assert.Equal(cells[5].GetBoolean(), Gate(plan, "dew_point") == SprayVerdict.Spray);
            Assert.Equal(cells[6].GetBoolean(), Gate(plan, "humidity") != SprayVerdict.DoNotSpray);
        }
    }

    // With the panel at air temperature the 3 C rule breaks below 85 %: neither rule holds the other.
    [Fact]
    public void Plan_humidity_at_which_the_margin_is_used_up_is_that_of_the_reference()
    {
        foreach (JsonElement row in Reference.GetProperty("rh_at_3K_margin_surface_equals_air").EnumerateArray())
        {
            (double airC, double humidity) = (row[0].GetDouble(), row[1].GetDouble());
            Assert.Equal(SprayVerdict.Spray, Gate(Plan(airC, humidity - 0.2), "dew_point"));
            Assert.Equal(SprayVerdict.DoNotSpray, Gate(Plan(airC, humidity + 0.2), "dew_point"));
            Assert.NotEqual(SprayVerdict.DoNotSpray, Gate(Plan(airC, humidity + 0.2), "humidity"));
        }
    }

    [Theory]
    [InlineData(24, 60, 22.0, "basecoat_clearcoat", SprayVerdict.Spray)]
    [InlineData(24, 85, 27.0, "basecoat_clearcoat", SprayVerdict.SprayWithCare)]
    [InlineData(24, 85.1, 27.0, "basecoat_clearcoat", SprayVerdict.DoNotSpray)]
    [InlineData(9.9, 50, 20.0, "basecoat_clearcoat", SprayVerdict.DoNotSpray)]
    [InlineData(20, 50, 9.9, "basecoat_clearcoat", SprayVerdict.DoNotSpray)]
    [InlineData(14, 50, 14.0, "basecoat_clearcoat", SprayVerdict.SprayWithCare)]
    [InlineData(33, 40, 35.0, "basecoat_clearcoat", SprayVerdict.Spray)]
    [InlineData(33, 40, 35.1, "basecoat_clearcoat", SprayVerdict.DoNotSpray)]
    [InlineData(20, 50, 25.1, "basecoat_clearcoat", SprayVerdict.SprayWithCare)]
    [InlineData(22, 74.9, 22.0, "lacquer", SprayVerdict.Spray)]
    [InlineData(22, 75, 22.0, "lacquer", SprayVerdict.SprayWithCare)]
    public void Plan_limits_decide(double airC, double humidity, double panelC, string finish, SprayVerdict expected)
    {
        SprayPlan plan = Plan(airC, humidity, panelC, finish == "lacquer" ? SprayFinish.Lacquer : SprayFinish.BasecoatClearcoat);
        Assert.Equal(expected, plan.Verdict);
        Assert.Equal(expected, plan.Gates[0].Verdict);
    }

    [Theory]
    [InlineData(15, SprayJob.OnePanel, "fast", 15, 25)]
    [InlineData(18, SprayJob.Spot, "fast", 10, 15)]
    [InlineData(18, SprayJob.WholeVehicle, "medium", 10, 15)]
    [InlineData(23, SprayJob.OnePanel, "medium", 5, 10)]
    [InlineData(28, SprayJob.OnePanel, "slow", 5, 10)]
    [InlineData(28, SprayJob.WholeVehicle, "extra_slow", 5, 10)]
    [InlineData(33, SprayJob.OnePanel, "extra_slow", 5, 8)]
    [InlineData(33, SprayJob.WholeVehicle, "extra_slow", 5, 8)]
    public void Plan_settings_follow_panel_and_job(double panelC, SprayJob job, string speed, double low, double high)
    {
        SprayPlan plan = Planner.Plan(new(SprayFinish.BasecoatClearcoat, job, new("", panelC, 45, null), []));
        Assert.Equal(speed, plan.ThinnerSpeed);
        Assert.Equal(new SprayRange(low, high), plan.FlashMin);
    }

    [Fact]
    public void Plan_damp_lacquer_takes_retarder_and_other_finishes_none()
    {
        Assert.Equal(new SprayRange(15, 30), Plan(22, 70.1, 22, SprayFinish.Lacquer).RetarderPercent);
        Assert.Null(Plan(22, 70, 22, SprayFinish.Lacquer).RetarderPercent);
        Assert.Null(Plan(22, 80, 26, SprayFinish.SingleStage2K).RetarderPercent);
    }

    [Theory]
    [InlineData(34, "dry air")]
    [InlineData(66, "damp air")]
    public void Plan_waterborne_color_flashes_until_matte_and_minds_the_air(double humidity, string note)
    {
        SprayPlan plan = Plan(23, humidity, 23, SprayFinish.WaterborneBase);
        Assert.Equal(new SprayRange(5, 20), plan.FlashMin);
        Assert.Contains(plan.Notes, n => n.Contains("matte", StringComparison.Ordinal));
        Assert.Contains(plan.Notes, n => n.StartsWith(note, StringComparison.Ordinal));
    }

    [Fact]
    public void Plan_synthetic_enamel_names_the_lifting_window() =>
        Assert.Contains("lifting window", Plan(22, 50, 22, SprayFinish.SyntheticEnamel).Recoat, StringComparison.Ordinal);

    [Fact]
    public void Plan_forecast_tells_the_first_hour_that_could_do()
    {
        SprayPlan plan = Planner.Plan(new(
            SprayFinish.BasecoatClearcoat,
            SprayJob.OnePanel,
            new("", 8, 90, null),
            [new("09:00", 9, 85, null), new("11:00", 16, 70, 14), new("13:00", 21, 55, 20)]));
        Assert.Equal(SprayVerdict.DoNotSpray, plan.Verdict);
        Assert.Equal("11:00", plan.PossibleFrom);
        Assert.Equal(
            [SprayVerdict.DoNotSpray, SprayVerdict.SprayWithCare, SprayVerdict.Spray],
            plan.Hours.Select(h => h.Verdict));
        Assert.NotEmpty(plan.Hours[0].Text);
        Assert.Empty(plan.Hours[2].Text);
    }

    [Fact]
    public void Plan_possible_now_names_no_hour() =>
        Assert.Empty(Planner.Plan(new(SprayFinish.Lacquer, SprayJob.Spot, new("", 22, 50, null), [new("1", 22, 50, null)])).PossibleFrom);

    [Fact]
    public void Plan_always_says_that_the_product_sheet_wins() =>
        Assert.Contains("product sheet wins", Plan(22, 50).ProductSheet, StringComparison.Ordinal);

    [Theory]
    [InlineData(61, 50, null, "airC")]
    [InlineData(double.NaN, 50, null, "airC")]
    [InlineData(20, 0, null, "humidityPercent")]
    [InlineData(20, 100.1, null, "humidityPercent")]
    [InlineData(20, 50, 91.0, "panelC")]
    public void Plan_number_out_of_range_names_the_field(double airC, double humidity, double? panelC, string field)
    {
        CoatScanException e = Assert.Throws<CoatScanException>(() => Plan(airC, humidity, panelC));
        Assert.Equal((ErrorReason.ValueOutOfRange, field), (e.Reason, e.Field));
    }

    [Fact]
    public void Plan_bad_forecast_names_the_hour()
    {
        SprayAir now = new("", 20, 50, null);
        CoatScanException e = Assert.Throws<CoatScanException>(() =>
            Planner.Plan(new(SprayFinish.Lacquer, SprayJob.Spot, now, [now with { Hour = "1" }, now])));
        Assert.Equal((ErrorReason.FieldInvalid, "forecast[1].hour"), (e.Reason, e.Field));
        e = Assert.Throws<CoatScanException>(() =>
            Planner.Plan(new(SprayFinish.Lacquer, SprayJob.Spot, now, [now with { Hour = "1", AirC = 99 }])));
        Assert.Equal("forecast[0].airC", e.Field);
        e = Assert.Throws<CoatScanException>(() => Planner.Plan(new(
            SprayFinish.Lacquer, SprayJob.Spot, now, [.. Enumerable.Repeat(now with { Hour = "1" }, SprayDayPlanner.MaxForecastHours + 1)])));
        Assert.Equal("forecast", e.Field);
    }

    private static SprayPlan Plan(
        double airC,
        double humidity,
        double? panelC = null,
        SprayFinish finish = SprayFinish.BasecoatClearcoat) =>
        Planner.Plan(new(finish, SprayJob.OnePanel, new("", airC, humidity, panelC), []));

    private static SprayVerdict Gate(SprayPlan plan, string gate) => plan.Gates.Single(g => g.Gate == gate).Verdict;

    private static double[] Numbers(JsonElement row) => [.. row.EnumerateArray().Select(n => n.GetDouble())];
}
