namespace CoatScan.Metrics.Ratings;

/// <summary>Classes of pictures with nominal areas: a value takes the class of the nearest one in the logarithm.</summary>
/// <remarks>
/// Cut points are geometric means of neighbors and belong to the lower class. This is a convention of CoatScan: the standards show pictures
/// and give no limits between them. Class 0 is for nothing found; anything found is at least class 1.
/// </remarks>
internal static class NearestNominal
{
    /// <summary>Class of a value by nominal values of class 1, 2, ..., rising.</summary>
    internal static int Class(double value, ReadOnlySpan<double> nominals)
    {
        if (value <= 0.0)
        {
            return 0;
        }

        for (var i = 0; i + 1 < nominals.Length; i++)
        {
            if (value <= Math.Sqrt(nominals[i] * nominals[i + 1]))
            {
                return i + 1;
            }
        }

        return nominals.Length;
    }
}
