using CoatScan.Imaging.Color;

namespace CoatScan.Imaging.Normalizing;

/// <summary>Brings the planes of a photo in another RGB space to linear sRGB.</summary>
internal static class GamutMapper
{
    // Rounding of 8-bit values at the edge of the gamut is no color outside it.
    private const double Tolerance = 0.005;

    /// <summary>Converts in place, clips to [0, 1], and returns the share of pixels that lay outside.</summary>
    public static double Apply(ReducedPhoto photo, Matrix3? toSrgb)
    {
        if (toSrgb is not { } matrix)
        {
            return 0;
        }

        float[] red = photo.Red.Values;
        float[] green = photo.Green.Values;
        float[] blue = photo.Blue.Values;
        int outside = 0;
        for (int i = 0; i < red.Length; i++)
        {
            var (r, g, b) = matrix.Apply(red[i], green[i], blue[i]);
            if (Math.Min(r, Math.Min(g, b)) < -Tolerance || Math.Max(r, Math.Max(g, b)) > 1 + Tolerance)
            {
                outside++;
            }

            red[i] = (float)Math.Clamp(r, 0, 1);
            green[i] = (float)Math.Clamp(g, 0, 1);
            blue[i] = (float)Math.Clamp(b, 0, 1);
        }

        return (double)outside / red.Length;
    }
}
