using System.Net;
using System.Text.Json;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;

namespace CoatScan.FunctionalTests.Server;

public sealed class SprayDayTests(SharedServer shared)
{
    [Fact]
    public async Task PlanSprayDay_good_day_answers_settings_in_grpc_and_json()
    {
        var plan = await shared.Server.SprayDay.PlanSprayDayAsync(Day());
        using var response = await shared.Server.Http.PostAsync(
            "/v1/sprayDay:plan",
            new StringContent(
                """{"airC":24,"humidityPercent":60,"panelC":22,"finish":"basecoat_clearcoat","job":"one_panel"}""",
                null,
                "application/json"),
            TestContext.Current.CancellationToken);

        Assert.Equal(SprayVerdict.Spray, plan.Verdict);
        Assert.Equal("medium", plan.ThinnerSpeed);
        Assert.Equal((5, 10), (plan.FlashMin.Low, plan.FlashMin.High));
        Assert.Equal(15.8, plan.DewPointC, 0.05);
        Assert.Null(plan.RetarderPercent);
        Assert.Contains("product sheet wins", plan.ProductSheet, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        var json = JsonDocument.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).RootElement;
        Assert.Equal("SPRAY_VERDICT_SPRAY", json.GetProperty("verdict").GetString());
        Assert.Equal(plan.DewPointC, json.GetProperty("dewPointC").GetDouble());
    }

    [Fact]
    public async Task PlanSprayDay_damp_day_says_why_and_when()
    {
        var request = Day();
        (request.AirC, request.HumidityPercent, request.PanelC) = (8, 92, 8);
        request.Forecast.Add(new ForecastHour { Hour = "10:00", AirC = 9, HumidityPercent = 80 });
        request.Forecast.Add(new ForecastHour { Hour = "13:00", AirC = 20, HumidityPercent = 55, PanelC = 19 });

        var plan = await shared.Server.SprayDay.PlanSprayDayAsync(request);

        Assert.Equal(SprayVerdict.DoNotSpray, plan.Verdict);
        Assert.Equal(
            ["cold", "dew_point", "humidity"],
            plan.Gates.Where(gate => gate.Verdict == SprayVerdict.DoNotSpray).Select(gate => gate.Gate).Order());
        Assert.Equal("13:00", plan.PossibleFrom);
        Assert.Equal(2, plan.Hours.Count);
    }

    [Theory]
    [InlineData("""{"humidityPercent":60,"finish":"lacquer"}""", "FIELD_INVALID", "air_c")]
    [InlineData("""{"airC":20,"finish":"lacquer"}""", "FIELD_INVALID", "humidity_percent")]
    [InlineData("""{"airC":20,"humidityPercent":60}""", "FIELD_INVALID", "finish")]
    [InlineData("""{"airC":20,"humidityPercent":60,"finish":"lacquer","job":"ship"}""", "FIELD_INVALID", "job")]
    [InlineData("""{"airC":20,"humidityPercent":101,"finish":"lacquer"}""", "VALUE_OUT_OF_RANGE", "humidity_percent")]
    [InlineData("""{"airC":20,"humidityPercent":60,"finish":"lacquer","forecast":[{"hour":"1","airC":20}]}""", "FIELD_INVALID", "forecast[0].humidity_percent")]
    [InlineData("""{"airC":20,"humidityPercent":60,"finish":"lacquer","forecast":[{"airC":20,"humidityPercent":60}]}""", "FIELD_INVALID", "forecast[0].hour")]
    public async Task PlanSprayDay_bad_request_names_the_field_in_grpc_and_json(string json, string reason, string field)
    {
        var status = await Errors.OfAsync(() =>
            shared.Server.SprayDay.PlanSprayDayAsync(PlanSprayDayRequest.Parser.ParseJson(json)));
        var (jsonReason, body) = await Errors.OfJsonAsync(
            shared.Server.Http, HttpMethod.Post, "/v1/sprayDay:plan", json, HttpStatusCode.BadRequest);

        Assert.Equal(reason, status.Info().Reason);
        Assert.Equal(field, status.Field());
        Assert.Equal((reason, field), (jsonReason, Errors.FieldOf(body)));
    }

    private static PlanSprayDayRequest Day() => new()
    {
        AirC = 24,
        HumidityPercent = 60,
        PanelC = 22,
        Finish = "basecoat_clearcoat",
        Job = "one_panel",
    };
}
