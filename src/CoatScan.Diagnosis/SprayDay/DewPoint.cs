namespace CoatScan.Diagnosis;

/// <summary>Dew point by the Magnus formula.</summary>
public static class DewPoint
{
    /// <summary>Temperature at which the air would be saturated over water.</summary>
    /// <param name="airC">Air temperature, Celsius, above -c of the constants.</param>
    /// <param name="humidityPercent">Relative humidity, percent, (0, 100].</param>
    /// <param name="constants">Constants of the formula; good for about -40 to 50 C.</param>
    public static double Of(double airC, double humidityPercent, MagnusConstants constants)
    {
        ArgumentNullException.ThrowIfNull(constants);
        double g = Math.Log(humidityPercent / 100) + (constants.B * airC / (constants.C + airC));
        return constants.C * g / (constants.B - g);
    }
}
