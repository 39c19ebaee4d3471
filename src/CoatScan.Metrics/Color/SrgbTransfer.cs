namespace CoatScan.Metrics.Color;

/// <summary>The sRGB transfer function: encoded value to linear light and back, both in [0, 1].</summary>
/// <remarks>
/// <para>Input outside [0, 1] follows the same formulas; nothing is clamped except in <see cref="ToByte"/>.</para>
/// <para>Source: IEC 61966-2-1, in the form with the break at 0.04045.</para>
/// </remarks>
public static class SrgbTransfer
{
    private static readonly float[] LinearOfByte = BuildTable();

    /// <summary>Linear light of each 8-bit code, 256 entries, [0, 1].</summary>
    public static ReadOnlySpan<float> ByteToLinear => LinearOfByte;

    /// <summary>Linear light of an encoded value.</summary>
    public static double ToLinear(double encoded) =>
        encoded <= 0.04045 ? encoded / 12.92 : Math.Pow((encoded + 0.055) / 1.055, 2.4);

    /// <summary>Encoded value of linear light; the inverse of <see cref="ToLinear"/>.</summary>
    public static double FromLinear(double linear) =>
        linear <= 0.04045 / 12.92 ? linear * 12.92 : (1.055 * Math.Pow(linear, 1.0 / 2.4)) - 0.055;

    /// <summary>Nearest 8-bit code of linear light, clamped to 0..255.</summary>
    public static byte ToByte(double linear) =>
        (byte)Math.Clamp((int)Math.Round(255.0 * FromLinear(Math.Max(linear, 0.0))), 0, 255);

    private static float[] BuildTable()
    {
        var table = new float[256];
        for (var code = 0; code < table.Length; code++)
        {
            table[code] = (float)ToLinear(code / 255.0);
        }

        return table;
    }
}
