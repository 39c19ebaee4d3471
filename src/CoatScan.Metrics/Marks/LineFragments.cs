namespace CoatScan.Metrics.Marks;

/// <summary>Tells marks that lie on a line, as pieces of a seam, a joint or the edge of a lid do, from faults that stand alone.</summary>
/// <remarks>
/// <para>From a spot the paint comes back on all sides. A piece of a line goes on: in two opposite directions (to 30 degrees) a ridge of the mark's
/// sign, no wider than the mark, is followed over three diameters, 16 px at least. At nine of ten steps it must stand out from both of its
/// flanks by 3 L* and by a third of the mark's contrast. It may wander by a pixel a step of two.</para>
/// <para>A chip on a scratch, or a grain of dirt in a crack, lies on a line too and is set apart with the others: the line is the fault there, and
/// is measured as one. Cost: by the number of marks. Deterministic. Source: our own.</para>
/// </remarks>
internal static class LineFragments
{
    private const int Directions = RayDirections.Count;
    private const int MostTurn = 2;
    private const double LeastContrast = 3.0;
    private const double ContrastShare = 1.0 / 3.0;
    private const double DiametersFollowed = 3.0;
    private const double LeastFollowedPx = 16.0;
    private const float StepPx = 2.0f;
    private const float FlankPastEdgePx = 2.0f;
    private const double MostGaps = 0.1;

    /// <summary>Whether a line runs through a mark.</summary>
    internal static bool IsOnLine(Mark mark, Plane lightness)
    {
        Span<bool> goesOn = stackalloc bool[Directions];
        var any = false;
        for (var i = 0; i < Directions; i++)
        {
            goesOn[i] = GoesOn(mark, lightness, RayDirections.Units[i]);
            any |= goesOn[i];
        }

        if (!any)
        {
            return false;
        }

        for (var i = 0; i < Directions; i++)
        {
            for (var turn = -MostTurn; goesOn[i] && turn <= MostTurn; turn++)
            {
                if (goesOn[(i + (Directions / 2) + turn + Directions) % Directions])
                {
                    return true;
                }
            }
        }

        return false;
    }

    private static bool GoesOn(Mark mark, Plane lightness, (float X, float Y) unit)
    {
        var radius = 0.5f * (float)mark.DiameterPx;
        var sign = Math.Sign(mark.ContrastLightness);
        var least = Math.Max(LeastContrast, ContrastShare * Math.Abs(mark.ContrastLightness));
        var steps = (int)(Math.Max(DiametersFollowed * mark.DiameterPx, LeastFollowedPx) / StepPx);
        var (x, y) = ((float)mark.CenterXPx + (radius * unit.X), (float)mark.CenterYPx + (radius * unit.Y));
        var gaps = 0;
        for (var step = 0; step < steps; step++)
        {
            (x, y) = (x + (StepPx * unit.X), y + (StepPx * unit.Y));
            var (best, side) = (double.MinValue, 0);
            for (var aside = -1; aside <= 1; aside++)
            {
                var stands = Ridge(lightness, x - (aside * unit.Y), y + (aside * unit.X), unit, radius + FlankPastEdgePx, sign);
                if (stands > best)
                {
                    (best, side) = (stands, aside);
                }
            }

            if (best >= least)
            {
                (x, y) = (x - (side * unit.Y), y + (side * unit.X));
            }
            else
            {
                gaps++;
            }

            if (gaps > MostGaps * steps)
            {
                return false;
            }
        }

        return true;
    }

    // How far a point stands out from the nearer of its two flanks; nothing outside of the photo.
    private static double Ridge(Plane lightness, float x, float y, (float X, float Y) unit, float flank, int sign)
    {
        var (left, right) = (At(lightness, x - (flank * unit.Y), y + (flank * unit.X)), At(lightness, x + (flank * unit.Y), y - (flank * unit.X)));
        var center = At(lightness, x, y);
        return float.IsNaN(left + right + center) ? double.MinValue : Math.Min(sign * (center - left), sign * (center - right));
    }

    private static float At(Plane lightness, float x, float y)
    {
        var (column, row) = ((int)MathF.Round(x), (int)MathF.Round(y));
        return (uint)column < (uint)lightness.Width && (uint)row < (uint)lightness.Height ? lightness[column, row] : float.NaN;
    }
}
