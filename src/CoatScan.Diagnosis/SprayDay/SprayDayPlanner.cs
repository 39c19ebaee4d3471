using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Says whether to spray, and with what settings; pure and safe to share.</summary>
/// <remarks>The product sheet wins over every number. Both condensation rules are checked, because neither holds the other.</remarks>
public sealed class SprayDayPlanner
{
    /// <summary>Most hours of a forecast: a week.</summary>
    public const int MaxForecastHours = 168;

    /// <summary>Longest name of an hour, characters.</summary>
    public const int MaxHourLength = 40;

    private readonly KnowledgeBase _knowledge;
    private readonly SprayRules _rules;

    /// <summary>Works with a knowledge base.</summary>
    public SprayDayPlanner(KnowledgeBase knowledge)
    {
        ArgumentNullException.ThrowIfNull(knowledge);
        _knowledge = knowledge;
        _rules = knowledge.SprayDay;
    }

    /// <summary>Plans.</summary>
    /// <exception cref="CoatScanException">
    /// <see cref="ErrorReason.ValueOutOfRange"/> or <see cref="ErrorReason.FieldInvalid"/>; the field is one of <c>airC</c>,
    /// <c>humidityPercent</c>, <c>panelC</c>, <c>forecast</c>, <c>forecast[2].airC</c>, <c>forecast[2].hour</c>.
    /// </exception>
    public SprayPlan Plan(SprayQuestion question)
    {
        ArgumentNullException.ThrowIfNull(question);
        Check(question);
        SprayAir now = question.Now;
        SprayGate[] gates = [.. Gates(now, question.Finish).OrderByDescending(g => g.Verdict)];
        SprayVerdict verdict = gates[0].Verdict;
        SprayHour[] hours = [.. question.Forecast.Select(h => Hour(h, question.Finish))];
        SprayFinishRule finish = _rules.Finishes[Id(question.Finish)];
        double panelC = now.PanelC ?? now.AirC;
        SprayBand band = _rules.Bands.First(b => panelC <= b.UpToC);
        bool waterborne = question.Finish == SprayFinish.WaterborneBase;
        return new()
        {
            Verdict = verdict,
            DewPointC = Dew(now),
            MarginC = panelC - Dew(now),
            Gates = gates,
            ThinnerSpeed = Slower(band.Speed, _rules.SlowerByJob[Id(question.Job)]),
            FlashMin = waterborne ? _rules.Waterborne.FlashMin : band.FlashMin,
            RetarderPercent = NeedsRetarder(now, question.Finish) ? _rules.Lacquer.RetarderSharePercent : null,
            CoatUm = finish.CoatUm,
            Recoat = finish.Recoat,
            Pot = finish.Pot,
            Notes = [band.Note, .. AirNotes(now, question.Finish), .. _rules.Rules],
            Hours = hours,
            PossibleFrom = verdict == SprayVerdict.DoNotSpray
                ? hours.FirstOrDefault(h => h.Verdict != SprayVerdict.DoNotSpray)?.Hour ?? ""
                : "",
            ProductSheet = _rules.ProductSheet,
            KnowledgeVersion = _knowledge.Version,
        };
    }

    private static string Text(double value) => value.ToString("0.#", CultureInfo.InvariantCulture);

    private static string Id(SprayFinish finish) => finish switch
    {
        SprayFinish.Lacquer => "lacquer",
        SprayFinish.SyntheticEnamel => "synthetic_enamel",
        SprayFinish.SingleStage2K => "single_stage_2k",
        SprayFinish.BasecoatClearcoat => "basecoat_clearcoat",
        _ => "waterborne_base",
    };

    private static string Id(SprayJob job) => job switch
    {
        SprayJob.Spot => "spot",
        SprayJob.OnePanel => "one_panel",
        SprayJob.SeveralPanels => "several_panels",
        _ => "whole_vehicle",
    };

    private static void Check(SprayQuestion question)
    {
        Check(question.Now, "");
        if (question.Forecast.Count > MaxForecastHours)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"forecast has {question.Forecast.Count} hours; at most {MaxForecastHours} are allowed.",
                "forecast",
                new Dictionary<string, string> { ["count"] = question.Forecast.Count.ToString(CultureInfo.InvariantCulture) });
        }

        for (int i = 0; i < question.Forecast.Count; i++)
        {
            SprayAir hour = question.Forecast[i];
            if (hour.Hour.Length is 0 or > MaxHourLength || hour.Hour.Any(char.IsControl))
            {
                throw new CoatScanException(
                    ErrorReason.FieldInvalid,
                    $"forecast[{i}].hour must name the hour in 1 to {MaxHourLength} characters.",
                    $"forecast[{i}].hour");
            }

            Check(hour, $"forecast[{i}].");
        }
    }

    private static void Check(SprayAir air, string at)
    {
        CheckRange(air.AirC, -30, 60, $"{at}airC", "-30 to 60 C");
        if (!(air.HumidityPercent is > 0 and <= 100))
        {
            throw OutOfRange(air.HumidityPercent, $"{at}humidityPercent", "above 0 and at most 100 percent");
        }

        if (air.PanelC is { } panel)
        {
            CheckRange(panel, -30, 90, $"{at}panelC", "-30 to 90 C");
        }
    }

    private static void CheckRange(double value, double low, double high, string field, string range)
    {
        if (!(value >= low && value <= high))
        {
            throw OutOfRange(value, field, range);
        }
    }

    private static CoatScanException OutOfRange(double value, string field, string range)
    {
        string shown = value.ToString("R", CultureInfo.InvariantCulture);
        return new(
            ErrorReason.ValueOutOfRange,
            $"{field} is {shown}; it must be {range}.",
            field,
            new Dictionary<string, string> { ["value"] = shown, ["range"] = range });
    }

    private double Dew(SprayAir air) => DewPoint.Of(air.AirC, air.HumidityPercent, _rules.Magnus);

    private bool NeedsRetarder(SprayAir air, SprayFinish finish) =>
        finish == SprayFinish.Lacquer && air.HumidityPercent > _rules.Lacquer.RetarderAbovePercent;

    private string Slower(string speed, int by)
    {
        int place = Math.Min(_rules.Speeds.ToList().IndexOf(speed) + by, _rules.Speeds.Count - 1);
        return _rules.Speeds[place];
    }

    private SprayHour Hour(SprayAir air, SprayFinish finish)
    {
        SprayGate[] gates = [.. Gates(air, finish).OrderByDescending(g => g.Verdict)];
        return new(
            air.Hour,
            gates[0].Verdict,
            Dew(air),
            string.Join("; ", gates.Where(g => g.Verdict != SprayVerdict.Spray && g.Verdict == gates[0].Verdict).Select(g => g.Text)));
    }

    private IEnumerable<string> AirNotes(SprayAir air, SprayFinish finish)
    {
        if (NeedsRetarder(air, finish))
        {
            yield return _rules.Lacquer.Text;
        }

        if (finish == SprayFinish.WaterborneBase)
        {
            yield return _rules.Waterborne.FlashText;
            if (air.HumidityPercent < _rules.Waterborne.DryBelowPercent)
            {
                yield return _rules.Waterborne.DryText;
            }
            else if (air.HumidityPercent > _rules.Waterborne.DampAbovePercent)
            {
                yield return _rules.Waterborne.DampText;
            }
        }
    }

    private IEnumerable<SprayGate> Gates(SprayAir air, SprayFinish finish)
    {
        SprayLimits limits = _rules.Gates;
        double panelC = air.PanelC ?? air.AirC;
        double margin = panelC - Dew(air);
        bool dry = margin >= limits.PanelAboveDewPointC;
        yield return new(
            "dew_point",
            dry ? SprayVerdict.Spray : SprayVerdict.DoNotSpray,
            margin,
            limits.PanelAboveDewPointC,
            "Cel",
            $"the panel is {Text(Math.Abs(margin))} C {(margin < 0 ? "below" : "above")} the dew point of {Text(Dew(air))} C; "
            + $"at least {Text(limits.PanelAboveDewPointC)} C {(dry ? "are needed" : "are needed, or water settles on it")}");

        double humidity = air.HumidityPercent;
        SprayVerdict damp = humidity > limits.HumidityMaxPercent ? SprayVerdict.DoNotSpray
            : humidity >= limits.HumidityCarePercent ? SprayVerdict.SprayWithCare
            : SprayVerdict.Spray;
        yield return new(
            "humidity",
            damp,
            humidity,
            damp == SprayVerdict.SprayWithCare ? limits.HumidityCarePercent : limits.HumidityMaxPercent,
            "%",
            damp switch
            {
                SprayVerdict.DoNotSpray => $"{Text(humidity)} % humidity; at most {Text(limits.HumidityMaxPercent)} % is allowed",
                SprayVerdict.SprayWithCare when finish == SprayFinish.Lacquer =>
                    $"{Text(humidity)} % humidity: lacquer only with retarder",
                SprayVerdict.SprayWithCare => $"{Text(humidity)} % humidity: hardener takes up water",
                _ => $"{Text(humidity)} % humidity is within the limit of {Text(limits.HumidityMaxPercent)} %",
            });

        double coldest = Math.Min(air.AirC, panelC);
        SprayVerdict cold = coldest < limits.TemperatureMinC ? SprayVerdict.DoNotSpray
            : coldest < limits.TemperatureCareC ? SprayVerdict.SprayWithCare
            : SprayVerdict.Spray;
        yield return new(
            "cold",
            cold,
            coldest,
            cold == SprayVerdict.SprayWithCare ? limits.TemperatureCareC : limits.TemperatureMinC,
            "Cel",
            cold switch
            {
                SprayVerdict.DoNotSpray => $"{Text(coldest)} C; at least {Text(limits.TemperatureMinC)} C of air and panel are needed",
                SprayVerdict.SprayWithCare =>
                    $"{Text(coldest)} C: below {Text(limits.TemperatureCareC)} C only on a warmed vehicle and as the product sheet allows",
                _ => $"{Text(coldest)} C is warm enough",
            });

        bool hot = panelC > limits.PanelMaxC;
        yield return new(
            "hot_panel",
            hot ? SprayVerdict.DoNotSpray : SprayVerdict.Spray,
            panelC,
            limits.PanelMaxC,
            "Cel",
            hot
                ? $"the panel has {Text(panelC)} C; at most {Text(limits.PanelMaxC)} C is allowed"
                : $"the panel has {Text(panelC)} C, within the limit of {Text(limits.PanelMaxC)} C");

        double apart = Math.Abs(panelC - air.AirC);
        bool far = apart > limits.PanelFromAirMaxC;
        yield return new(
            "panel_from_air",
            far ? SprayVerdict.SprayWithCare : SprayVerdict.Spray,
            apart,
            limits.PanelFromAirMaxC,
            "Cel",
            far
                ? $"panel and air are {Text(apart)} C apart: let the vehicle stand until it is within {Text(limits.PanelFromAirMaxC)} C"
                : $"panel and air are {Text(apart)} C apart");
    }
}
