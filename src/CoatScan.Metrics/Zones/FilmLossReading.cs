using CoatScan.Metrics.Color;
using CoatScan.Metrics.Filters;
using CoatScan.Metrics.Shapes;

namespace CoatScan.Metrics.Zones;

/// <summary>Areas with another body color than the paint and a step at their edge.</summary>
/// <param name="Lost">Cells of such areas.</param>
/// <param name="Areas">The areas, cells.</param>
/// <param name="Paint">The paint's color.</param>
/// <param name="SoftShare">Share of all cells whose body color differs too, but without a step: fading, soft reflections.</param>
/// <param name="CellPx">Side of a cell, pixels of the planes.</param>
/// <remarks>
/// <para>Light from paint is its body color times the light plus a reflection of the color of the light (Shafer, Color Research and
/// Application 10(4), 1985): on a white-balanced photo every pixel of one paint lies in the plane of its own color and white. A cell
/// differs where it lies more than 10 Lab units off that plane, or where in that plane less than 0.4 of the body color is left in
/// light that is not much darker than the paint's: gray primer or metal under colored paint.</para>
/// <para>An area of at least 12 cells is lost film if along at least half of its rim three quarters of the difference are crossed within
/// four cells. The long side is reduced to 512 cells.</para>
/// <para>Cost: O(n). Source: the limits are our own.</para>
/// </remarks>
internal sealed record FilmLossReading(
    ColorShare Lost, List<Component> Areas, PaintColor Paint, double SoftShare, double CellPx)
{
    /// <summary>Areas near the limits of size and step, counted or not: another photo of the panel may decide otherwise.</summary>
    internal required List<Component> Doubtful { get; init; }

    private const int LongSideCells = 512;
    private const int LeastAreaCells = 12;
    private const double LeastStepShare = 0.5;
    private const double StepShareSlack = 0.2;
    private const float LeastStep = 0.75f;
    private const int StepReach = 2;

    internal static FilmLossReading Of(ColorScene scene, PlaneScope scope)
    {
        var (width, height) = AreaReduction.Fit(scene.Width, scene.Height, LongSideCells);
        var red = Reduce(scene.Red, width, height, scope);
        var green = Reduce(scene.Green, width, height, scope);
        var blue = Reduce(scene.Blue, width, height, scope);
        var lab = LabPlanes.FromLinear(red, green, blue);
        var paint = PaintColor.Of(lab, red, green, blue);
        var difference = BodyDifference.Of(red, green, blue, lab, paint, scope);
        var reading = Read(difference, scene, paint);
        foreach (var plane in (ReadOnlySpan<Plane>)[lab.Lightness, lab.AStar, lab.BStar])
        {
            PlaneScope.Keep(plane.Values);
        }

        return reading;
    }

    private static Plane Reduce(Plane plane, int width, int height, PlaneScope scope)
    {
        var target = scope.Rent(width, height);
        AreaReduction.Apply(plane, target);
        return target;
    }

    private static FilmLossReading Read(Plane difference, ColorScene scene, PaintColor paint)
    {
        var mask = new bool[difference.Values.Length];
        var (loose, strict) = (0, 0);
        for (var i = 0; i < mask.Length; i++)
        {
            mask[i] = difference.Values[i] >= 1.0f;
            loose += difference.Values[i] >= 1.0f - BodyDifference.Slack ? 1 : 0;
            strict += difference.Values[i] >= 1.0f + BodyDifference.Slack ? 1 : 0;
        }

        var found = ConnectedComponents.Find(mask, difference.Width, difference.Height, Connectivity.Eight);
        var steps = Steps(difference, found);
        var (lost, soft, rim) = (0.0, 0.0, 0.0);
        var areas = new List<Component>();
        var doubtful = new List<Component>();
        for (var i = 0; i < found.Components.Count; i++)
        {
            var area = found.Components[i];
            if (IsDoubtful(area.AreaPx, steps[i]))
            {
                doubtful.Add(area);
            }

            if (area.AreaPx >= LeastAreaCells && steps[i] >= LeastStepShare)
            {
                areas.Add(area);
                lost += area.AreaPx;
                rim += Math.PI * area.EquivalentDiameterPx;
            }
            else
            {
                soft += area.AreaPx;
            }
        }

        var share = lost / Math.Max(1.0, lost + soft);
        return new(
            new(lost, loose * share, strict * share, rim),
            areas,
            paint,
            soft / mask.Length,
            (double)scene.Width / difference.Width * ColorScene.CellPx)
        {
            Doubtful = doubtful,
        };
    }

    private static bool IsDoubtful(int areaCells, double stepShare) =>
        2 * areaCells >= LeastAreaCells && stepShare >= LeastStepShare - StepShareSlack
        && (areaCells < 2 * LeastAreaCells || stepShare < LeastStepShare + StepShareSlack);

    // Share of each component's run ends at which the difference falls by most of itself within a few cells.
    private static double[] Steps(Plane difference, ComponentSet found)
    {
        var means = new double[found.Components.Count];
        foreach (var run in found.Runs)
        {
            for (var x = run.StartX; x < run.EndX; x++)
            {
                means[run.Component] += difference[x, run.Y];
            }
        }

        var (sharp, all) = (new int[means.Length], new int[means.Length]);
        foreach (var run in found.Runs)
        {
            var level = (float)(means[run.Component] / found.Components[run.Component].AreaPx);
            Count(difference, run.Y, run.StartX, -1, level, ref sharp[run.Component], ref all[run.Component]);
            Count(difference, run.Y, run.EndX - 1, 1, level, ref sharp[run.Component], ref all[run.Component]);
        }

        var shares = new double[means.Length];
        for (var i = 0; i < shares.Length; i++)
        {
            shares[i] = all[i] == 0 ? 0.0 : (double)sharp[i] / all[i];
        }

        return shares;
    }

    private static void Count(Plane difference, int y, int x, int outward, float level, ref int sharp, ref int all)
    {
        var (inner, outer) = (x - (outward * StepReach), x + (outward * StepReach));
        if (inner < 0 || outer < 0 || inner >= difference.Width || outer >= difference.Width)
        {
            return;
        }

        all++;
        sharp += Math.Max(difference[inner, y], difference[x, y]) - difference[outer, y] >= LeastStep * level ? 1 : 0;
    }
}
