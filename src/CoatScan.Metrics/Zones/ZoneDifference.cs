using CoatScan.Findings;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Uncertainty;

namespace CoatScan.Metrics.Zones;

/// <summary>Color of a second zone against a first one of the same photo: CIEDE2000 and the steps of L*, a*, b* and C*; and its texture.</summary>
/// <remarks>
/// <para>Texture: see <see cref="ZoneTexture"/>; the rest is about color.</para>
/// <para><c>color_difference_de00</c>: 0 or more. <c>color_difference_l</c>, <c>_a</c>, <c>_b</c>, <c>_c</c>: second less first; chalking
/// and fading make L* rise and C* fall. All without unit. Bronzing is a sheen that comes and goes with the angle: it needs two views,
/// and two photos differ in exposure and white balance, so it is not measured.</para>
/// <para>Absent: the light differs between the zones, see <see cref="ZoneLight"/>. Comparable only within one photo; effect colors only
/// where both zones face the camera alike. Never against a paint's formula.</para>
/// <para>Uncertainty: of each zone 2.13 standard errors of its sixteen tiles in L*, a* and b* (Student's t for 15 degrees of freedom) and
/// <see cref="CodingError"/>; the step of light that the zones' own slopes foretell; each carried through the formulas, root of the sum
/// of squares.</para>
/// <para>Cost: by the area of the zones. Sources: <see cref="DeltaE2000"/>; <see cref="CieLab"/>.</para>
/// </remarks>
public static class ZoneDifference
{
    private const double StudentOf15 = 2.131;

    private static readonly string[] Names = ["de00", "l", "a", "b", "c"];

    /// <summary>Compares two zones of a panel's photo.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="zones">Zones in pixels of the oriented original photo, inside it.</param>
    /// <param name="stored">How well the colors of the two survived being stored.</param>
    public static IReadOnlyList<Measurement> Measure(PanelPlanes panel, ZonePair zones, StoredZones stored)
    {
        ArgumentNullException.ThrowIfNull(panel);
        ArgumentNullException.ThrowIfNull(zones);
        ArgumentNullException.ThrowIfNull(stored);
        var first = ZoneColor.Of(panel, zones.First, stored.First);
        var second = ZoneColor.Of(panel, zones.Second, stored.Second);
        var light = ZoneLight.Of(panel, first, second);
        if (light.Reason is { } reason)
        {
            return [.. Names.Select(name => Measurement.Absent($"color_difference_{name}", "1", reason)), .. ZoneTexture.Absent(reason)];
        }

        var differences = Differences(first!, second!, light.LogStep);
        return
        [
            .. Names.Select((name, i) => Measurement.Of(
                $"color_difference_{name}", differences[i].Value, "1", differences[i].HalfWidth)),
            .. ZoneTexture.Measure(panel.Lightness, first!, second!),
        ];
    }

    private static Estimate[] Differences(ZoneColor first, ZoneColor second, double logStep)
    {
        var (one, two) = (first.Color, second.Color);
        var values = Between(one, two);
        var squares = new double[values.Length];
        foreach (var moved in Scattered(first))
        {
            Add(Between(moved, two));
        }

        foreach (var moved in Scattered(second).Append(InOtherLight(two, logStep)))
        {
            Add(Between(one, moved));
        }

        AddPairs(CodingError.Around(one, first.Stored), moved => Between(moved, two));
        AddPairs(CodingError.Around(two, second.Stored), moved => Between(one, moved));
        return [.. values.Select((value, i) => new Estimate(value, Math.Sqrt(squares[i])))];

        void Add(double[] moved)
        {
            for (var i = 0; i < squares.Length; i++)
            {
                squares[i] += (moved[i] - values[i]) * (moved[i] - values[i]);
            }
        }

        // Up and down: the larger effect counts, since a difference near 0 cannot fall.
        void AddPairs(IEnumerable<LabColor> around, Func<LabColor, double[]> between)
        {
            foreach (var pair in around.Chunk(2))
            {
                var (up, down) = (between(pair[0]), between(pair[1]));
                for (var i = 0; i < squares.Length; i++)
                {
                    squares[i] += Math.Pow(Math.Max(Math.Abs(up[i] - values[i]), Math.Abs(down[i] - values[i])), 2.0);
                }
            }
        }
    }

    private static double[] Between(LabColor first, LabColor second) =>
    [
        DeltaE2000.Between(first, second),
        second.L - first.L,
        second.A - first.A,
        second.B - first.B,
        second.Chroma - first.Chroma,
    ];

    private static IEnumerable<LabColor> Scattered(ZoneColor zone)
    {
        var (color, tiles) = (zone.Color, zone.TileColors.ToList());
        yield return color with { L = color.L + HalfWidth(tile => tile.L) };
        yield return color with { A = color.A + HalfWidth(tile => tile.A) };
        yield return color with { B = color.B + HalfWidth(tile => tile.B) };

        double HalfWidth(Func<LabColor, double> part)
        {
            var mean = tiles.Average(part);
            var variance = tiles.Sum(tile => Math.Pow(part(tile) - mean, 2.0)) / Math.Max(1, tiles.Count - 1);
            return StudentOf15 * Math.Sqrt(variance / tiles.Count);
        }
    }

    private static LabColor InOtherLight(LabColor color, double logStep)
    {
        var (red, green, blue) = CieLab.ToLinear(color);
        var factor = Math.Exp(logStep);
        return CieLab.FromLinear(red * factor, green * factor, blue * factor);
    }
}
