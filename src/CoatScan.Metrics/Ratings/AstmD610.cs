namespace CoatScan.Metrics.Ratings;

/// <summary>ASTM D610 rust grade, 10 (best) to 0, from the rusted share of an area.</summary>
/// <remarks>
/// <para>Grade limits are "greater than ... up to": 0.01, 0.03, 0.1, 0.3, 1, 3, 10, 16, 33, 50 %.</para>
/// <para>Source: ASTM D610-08, table 1, read in two reproductions of it that agree. Distribution letters S (spot), G (general), P (pinpoint) and
/// H (hybrid): the same. Which pattern earns which letter is shown there in pictures; see <see cref="RustDistribution"/>.</para>
/// </remarks>
public static class AstmD610
{
    private static readonly double[] UpperPercent = [0.01, 0.03, 0.1, 0.3, 1.0, 3.0, 10.0, 16.0, 33.0, 50.0];

    /// <summary>Grade of a rusted area in percent, [0, 100].</summary>
    public static int Grade(double percent)
    {
        var grade = 10;
        foreach (var upper in UpperPercent)
        {
            if (percent <= upper)
            {
                return grade;
            }

            grade--;
        }

        return 0;
    }
}
