using CoatScan.Findings;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>Spray day of the contract -> domain and back.</summary>
internal static class SprayDayMapping
{
    private static readonly Dictionary<string, SprayFinish> Finishes = new(StringComparer.Ordinal)
    {
        ["lacquer"] = SprayFinish.Lacquer,
        ["synthetic_enamel"] = SprayFinish.SyntheticEnamel,
        ["single_stage_2k"] = SprayFinish.SingleStage2K,
        ["basecoat_clearcoat"] = SprayFinish.BasecoatClearcoat,
        ["waterborne_base"] = SprayFinish.WaterborneBase,
    };

    private static readonly Dictionary<string, SprayJob> Jobs = new(StringComparer.Ordinal)
    {
        [""] = SprayJob.OnePanel,
        ["spot"] = SprayJob.Spot,
        ["one_panel"] = SprayJob.OnePanel,
        ["several_panels"] = SprayJob.SeveralPanels,
        ["whole_vehicle"] = SprayJob.WholeVehicle,
    };

    /// <summary>The question; its numbers are checked where they are used.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID: a number is missing, or a finish or job is unknown.</exception>
    public static SprayQuestion ToQuestion(Wire.PlanSprayDayRequest request) => new(
        Named(Finishes, request.Finish, "finish"),
        Named(Jobs, request.Job, "job"),
        new SprayAir(
            "",
            Given(request.HasAirC, request.AirC, "airC"),
            Given(request.HasHumidityPercent, request.HumidityPercent, "humidityPercent"),
            request.HasPanelC ? request.PanelC : null),
        [
            .. request.Forecast.Select((hour, i) => new SprayAir(
                hour.Hour,
                Given(hour.HasAirC, hour.AirC, $"forecast[{i}].airC"),
                Given(hour.HasHumidityPercent, hour.HumidityPercent, $"forecast[{i}].humidityPercent"),
                hour.HasPanelC ? hour.PanelC : null)),
        ]);

    public static Wire.SprayPlan ToWire(SprayPlan plan)
    {
        var wire = new Wire.SprayPlan
        {
            Verdict = ToWire(plan.Verdict),
            DewPointC = plan.DewPointC,
            MarginC = plan.MarginC,
            ThinnerSpeed = plan.ThinnerSpeed,
            FlashMin = ToWire(plan.FlashMin),
            CoatUm = ToWire(plan.CoatUm),
            Recoat = plan.Recoat,
            Pot = plan.Pot,
            PossibleFrom = plan.PossibleFrom,
            ProductSheet = plan.ProductSheet,
            KnowledgeVersion = plan.KnowledgeVersion,
        };
        if (plan.RetarderPercent is { } retarder)
        {
            wire.RetarderPercent = ToWire(retarder);
        }

        wire.Gates.Add(plan.Gates.Select(gate => new Wire.SprayGate
        {
            Gate = gate.Gate,
            Verdict = ToWire(gate.Verdict),
            Value = gate.Value,
            Limit = gate.Limit,
            Unit = gate.Unit,
            Text = gate.Text,
        }));
        wire.Notes.Add(plan.Notes);
        wire.Hours.Add(plan.Hours.Select(hour => new Wire.SprayHour
        {
            Hour = hour.Hour,
            Verdict = ToWire(hour.Verdict),
            DewPointC = hour.DewPointC,
            Text = hour.Text,
        }));
        return wire;
    }

    private static Wire.SprayRange ToWire(SprayRange range) => new() { Low = range.Low, High = range.High };

    private static Wire.SprayVerdict ToWire(SprayVerdict verdict) => verdict switch
    {
        SprayVerdict.Spray => Wire.SprayVerdict.Spray,
        SprayVerdict.SprayWithCare => Wire.SprayVerdict.SprayWithCare,
        SprayVerdict.DoNotSpray => Wire.SprayVerdict.DoNotSpray,
        _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, null),
    };

    private static double Given(bool given, double value, string field) => given
        ? value
        : throw new CoatScanException(ErrorReason.FieldInvalid, $"{field} is missing.", field);

    private static T Named<T>(Dictionary<string, T> names, string name, string field)
    {
        if (names.TryGetValue(name, out var value))
        {
            return value;
        }

        var allowed = string.Join(", ", names.Keys.Where(known => known.Length > 0));
        throw new CoatScanException(
            ErrorReason.FieldInvalid,
            $"{field} must be one of {allowed}.",
            field,
            new Dictionary<string, string> { ["allowed"] = allowed });
    }
}
