using System.Globalization;

namespace CoatScan.Reports;

/// <summary>Numbers as people read them.</summary>
internal static class Shares
{
    /// <summary>A measured value to as many places as its uncertainty supports, three figures without one.</summary>
    public static string Measured(double value, double? uncertainty, IFormatProvider marks)
    {
        if (uncertainty is null && value == Math.Round(value))
        {
            return value.ToString("0", marks);
        }

        double grain = uncertainty is > 0 and var spread ? spread : Math.Abs(value) / 10;
        int places = grain > 0 ? Math.Clamp(1 - (int)Math.Floor(Math.Log10(grain)), 0, 6) : 0;
        double rounded = Math.Round(value, places);
        return (rounded == 0 ? 0 : rounded).ToString("F" + places.ToString(CultureInfo.InvariantCulture), marks);
    }
}
