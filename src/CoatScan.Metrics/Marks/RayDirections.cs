namespace CoatScan.Metrics.Marks;

/// <summary>The directions in which paint is looked at about a mark, evenly around it.</summary>
internal static class RayDirections
{
    /// <summary>How many.</summary>
    internal const int Count = 24;

    /// <summary>One pixel in each of them; half of their number on is the opposite one.</summary>
    internal static readonly (float X, float Y)[] Units = MakeUnits();

    private static (float X, float Y)[] MakeUnits()
    {
        var units = new (float X, float Y)[Count];
        for (var i = 0; i < Count; i++)
        {
            var (sine, cosine) = Math.SinCos(2.0 * Math.PI * (i + 0.5) / Count);
            units[i] = ((float)cosine, (float)sine);
        }

        return units;
    }
}
