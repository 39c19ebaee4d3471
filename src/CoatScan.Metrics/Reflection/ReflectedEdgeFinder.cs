using CoatScan.Metrics.Filters;

namespace CoatScan.Metrics.Reflection;

/// <summary>Finds long, nearly straight edges that a panel reflects, longest first, and traces them.</summary>
/// <remarks>
/// <para>Sought on the panel reduced to 512 px on the long side, traced at full size. An edge is kept if it is at least 0.15
/// of the long side; if 85 % of its rows have a crossing; if it is a step, not a line: no dip or crest beyond its sides by a
/// fifth of the step, which leaves out seams, gaps, scratches and cracks; if its sides are even: their levels along the edge
/// scatter by at most 0.35 of the step, which leaves out rivet rows, lettering and clutter; and if the color of the step can
/// be that of a reflection, see <see cref="ReflectionLook"/>, which also says what cannot be told apart.</para>
/// <para>At most 8 edges are traced. Cost: O(n) for the reduction, then proportional to the length of the edges.</para>
/// <para>The limits are our own. Those of <see cref="ReflectionLook"/> and <see cref="EdgeSurroundings"/> were set after a look
/// at 71 real photos without any such reflection, in 19 of which seams, gaps and painted borders had passed before; none does
/// now. That says nothing of how many real reflections are found: of those no photos were at hand.</para>
/// </remarks>
internal static class ReflectedEdgeFinder
{
    internal const int LongSidePx = 512;

    private const double LeastLengthShare = 0.15;
    private const double LeastLengthPx = 40.0;
    private const float LeastSlope = 0.8f;
    private const int MostCandidates = 24;
    private const int MostEdges = 8;

    // Enough to draw a bent edge; the waves themselves are too low to be drawn.
    private const int CoursePoints = 25;

    private const double LeastTracedShare = 0.85;
    private const double LargestOvershoot = 0.2;
    private const double LargestSideScatter = 0.35;
    private const double LeastStepOverNoise = 6.0;
    private const double LargestClippedShare = 0.05;
    private const int StretchPx = 96;
    private const int MostStretches = 8;

    internal static IReadOnlyList<ReflectedEdge> Find(PanelPlanes panel, CancellationToken cancellation)
    {
        using var scope = new PlaneScope();
        var (width, height) = AreaReduction.Fit(panel.Width, panel.Height, LongSidePx);
        if (Math.Min(width, height) < LeastLengthPx)
        {
            return [];
        }

        var reduced = scope.Rent(width, height);
        AreaReduction.Apply(panel.Lightness, reduced);
        var scale = (double)panel.Width / width;
        var leastLength = Math.Max(LeastLengthPx, LeastLengthShare * Math.Max(width, height));
        var edges = new List<ReflectedEdge>();
        foreach (var chain in EdgeChains.Find(reduced, leastLength, LeastSlope, scope).Take(MostCandidates))
        {
            cancellation.ThrowIfCancellationRequested();
            if (edges.Count < MostEdges && IsReflection(panel, reduced, chain, scale) is { } clipped
                && Trace(panel, new EdgeLine(chain, scale), scale) is { } edge)
            {
                edges.Add(edge with { IsClipped = clipped });
            }
        }

        return edges;
    }

    // Whether clipping cuts its bright side; null if the edge does not look like a reflection.
    private static bool? IsReflection(PanelPlanes panel, Plane reduced, List<EdgePoint> chain, double scale)
    {
        var (dark, bright, clippedShare) = SideColors.Of(panel, new EdgeLine(chain, scale), (3.0 * scale) + 3.0);
        var clipped = clippedShare > LargestClippedShare;
        return ReflectionLook.IsPlausible(dark, bright, clipped)
            && EdgeSurroundings.IsPaint(reduced, new EdgeLine(chain, 1.0), ReflectionLook.Luminance(dark), clipped)
            ? clipped
            : null;
    }

    private static ReflectedEdge? Trace(PanelPlanes panel, EdgeLine line, double scale)
    {
        var strip = new EdgeStrip(panel.Lightness, line, (int)Math.Ceiling((4.0 * scale) + 4.0));
        var trace = new EdgeTrace(strip);
        if (trace.TracedRows < LeastTracedShare * strip.Rows || !HasEvenSides(trace))
        {
            return null;
        }

        var profiles = Profiles(trace, strip);
        if (EdgeProfile.Join(profiles).Overshoot() > LargestOvershoot)
        {
            return null;
        }

        var residuals = TraceFit.Residuals(trace.PositionsPx);
        return new()
        {
            ResidualsPx = residuals,
            NoisePx = NoiseOf(residuals),
            CodingPowerPx3 = TraceCoding.PowerPx3(residuals, line.Direction, panel.OriginalPxPerPx),
            BlurPx = [.. profiles.Select(profile => profile.BlurPx(strip.InterpolationVariance)).OfType<double>()],
            IsClipped = false,
            Course = [.. Enumerable.Range(0, CoursePoints).Select(point => On(line, trace, point * (trace.PositionsPx.Length - 1) / (CoursePoints - 1)))],
        };
    }

    private static (double X, double Y) On(EdgeLine line, EdgeTrace trace, int row) => line.At(row, trace.PositionsPx[row]);

    private static bool HasEvenSides(EdgeTrace trace)
    {
        var (low, high) = (new List<double>(), new List<double>());
        for (var row = 0; row < trace.PositionsPx.Length; row += 4)
        {
            if (trace.IsTraced(row))
            {
                low.Add(trace.Low(row));
                high.Add(trace.High(row));
            }
        }

        var step = high.Average() - low.Average();
        var noise = Math.Max(RoughnessOf(low), RoughnessOf(high));
        return step > LeastStepOverNoise * noise
            && ScatterOf(low) <= LargestSideScatter * step
            && ScatterOf(high) <= LargestSideScatter * step;
    }

    private static double ScatterOf(List<double> values)
    {
        var mean = values.Average();
        return Math.Sqrt(values.Average(value => (value - mean) * (value - mean)));
    }

    // Median difference of neighbors: what is left of the noise after the levels were averaged.
    private static double RoughnessOf(List<double> values)
    {
        var differences = new double[Math.Max(1, values.Count - 1)];
        for (var i = 0; i + 1 < values.Count; i++)
        {
            differences[i] = values[i + 1] - values[i];
        }

        return TraceFit.MedianMagnitude(differences);
    }

    // The second difference of white noise has six times its variance; a median keeps flaws of the edge out.
    private static double NoiseOf(double[] residuals)
    {
        var differences = new double[Math.Max(1, residuals.Length - 2)];
        for (var i = 0; i + 2 < residuals.Length; i++)
        {
            differences[i] = residuals[i] - (2.0 * residuals[i + 1]) + residuals[i + 2];
        }

        return TraceFit.MedianMagnitude(differences) / (0.6745 * Math.Sqrt(6.0));
    }

    private static List<EdgeProfile> Profiles(EdgeTrace trace, EdgeStrip strip)
    {
        var count = Math.Clamp(strip.Rows / StretchPx, 1, MostStretches);
        var profiles = new List<EdgeProfile>();
        for (var i = 0; i < count; i++)
        {
            profiles.Add(EdgeProfile.Of(
                trace, strip, (int)((long)i * strip.Rows / count), (int)((long)(i + 1) * strip.Rows / count)));
        }

        return profiles;
    }
}
