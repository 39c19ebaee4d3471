namespace CoatScan.Diagnosis;

/// <summary>Limits of the air and the panel.</summary>
/// <param name="PanelAboveDewPointC">Least margin of the panel over the dew point, Celsius.</param>
/// <param name="HumidityMaxPercent">Most relative humidity, percent.</param>
/// <param name="HumidityCarePercent">Care above, percent.</param>
/// <param name="TemperatureMinC">Least temperature of air and panel, Celsius.</param>
/// <param name="TemperatureCareC">Care below, Celsius.</param>
/// <param name="PanelMaxC">Most panel temperature, Celsius.</param>
/// <param name="PanelFromAirMaxC">Most difference of panel and air, Celsius.</param>
public sealed record SprayLimits(
    double PanelAboveDewPointC,
    double HumidityMaxPercent,
    double HumidityCarePercent,
    double TemperatureMinC,
    double TemperatureCareC,
    double PanelMaxC,
    double PanelFromAirMaxC);
