using CoatScan.Findings;
using CoatScan.Metrics;
using CoatScan.Metrics.Lines;

namespace CoatScan.MetricsTests.Lines;

/// <summary>The table of <see cref="LineMetrics"/>, row by row, on drawn patterns of known shape.</summary>
public sealed class LinePatternTests
{
    private const int Side = 480;

    [Fact]
    public void Measure_cell_cracks_enclose_cells_and_run_every_way()
    {
        var read = Measure(Cells());

        Assert.InRange(read("line_cell_count"), 25, 60);
        Assert.InRange(read("line_junction_density"), 0.01, 0.1);
        Assert.InRange(read("line_direction_spread"), 0.7, 1.0);
        Assert.InRange(read("line_local_direction_spread"), 0.5, 1.0);
        Assert.InRange(read("line_arc_share"), 0.0, 0.2);
    }

    [Fact]
    public void Measure_scratches_side_by_side_run_one_way_and_meet_nowhere()
    {
        var read = Measure(Scratches());

        Assert.Equal(0.0, read("line_cell_count"));
        Assert.Equal(0.0, read("line_junction_density"));
        Assert.InRange(read("line_direction_spread"), 0.0, 0.05);
        Assert.InRange(read("line_straightness"), 0.97, 1.0);
        Assert.InRange(read("line_longest_share"), 0.0, 0.2);
    }

    // Coherence of a structure tensor and one less the spread of line directions are both the length of the mean axial direction.
    [Theory]
    [InlineData("grating_0", 0.0, null)]
    [InlineData("grating_30", 30.0, null)]
    [InlineData("grating_45", 45.0, null)]
    [InlineData("grating_90", 90.0, null)]
    [InlineData("grating_120", 120.0, null)]
    [InlineData("crossed_gratings", 0.0, 90.0)]
    public void Measure_gratings_spread_by_what_their_coherence_leaves(string name, double degrees, double? crossedBy)
    {
        var coherence = ReferenceData.Read("structure_tensor").GetProperty("cases").GetProperty(name)
            .GetProperty("coherence_mean_center").GetDouble();

        var read = Measure((x, y) => Math.Min(ToLine(x, y, degrees), crossedBy is { } other ? ToLine(x, y, other) : 99.0));

        Assert.Equal(1.0 - coherence, read("line_direction_spread"), 0.03);

        // Distance to the nearest of lines 24 px apart, across the given direction.
        static double ToLine(int x, int y, double degrees)
        {
            var (sine, cosine) = Math.SinCos(degrees * Math.PI / 180.0);
            var across = (x * cosine) + (y * sine) + 7.3;
            return Math.Abs(across - (24.0 * Math.Round(across / 24.0)));
        }
    }

    [Fact]
    public void Measure_swirl_bends_and_agrees_only_with_its_neighbors()
    {
        var read = Measure(Swirl());

        Assert.InRange(read("line_direction_spread"), 0.6, 1.0);
        Assert.InRange(read("line_local_direction_spread"), 0.0, 0.4);
        Assert.InRange(read("line_arc_share"), 0.6, 1.0);
        Assert.Equal(0.0, read("line_cell_count"));
    }

    [Fact]
    public void Measure_single_track_is_nearly_all_of_the_length()
    {
        var read = Measure((x, y) => x is > 60 and < 420 ? Math.Abs(y - 200 - (0.2 * x) - (15 * Math.Sin(x / 60.0))) : 99.0);

        Assert.InRange(read("line_longest_share"), 0.9, 1.0);
        Assert.Equal(0.0, read("line_through_share"));
        Assert.InRange(read("line_arc_share"), 0.0, 0.1);
    }

    // The lower edge of a run or a sag is one bow of 140 degrees: like a single track it is nearly all of the length, but it keeps to its circle.
    [Fact]
    public void Measure_edge_of_a_run_is_one_arc_of_its_radius()
    {
        var read = Measure((x, y) => Math.Abs(Math.Atan2(x - 240, y - 180)) < 70.0 * Math.PI / 180.0
            ? Math.Abs(Math.Sqrt(Math.Pow(x - 240, 2) + Math.Pow(y - 180, 2)) - 110.0)
            : 99.0);

        Assert.InRange(read("line_longest_share"), 0.9, 1.0);
        Assert.InRange(read("line_arc_share"), 0.9, 1.0);
        Assert.Equal(0.0, read("line_through_share"));
        Assert.Equal(0.0, read("line_cell_count"));
        Assert.Equal(1.0 / 110.0, read("line_curvature"), 0.05 / 110.0);

        // Chord over arc, 2 sin 70 degrees over 140 degrees.
        Assert.Equal(0.769, read("line_straightness"), 0.03);
    }

    [Fact]
    public void Measure_separate_cracks_run_every_way_and_meet_seldom()
    {
        var read = Measure(SeparateCracks());

        Assert.InRange(read("line_cell_count"), 0, 1);
        Assert.InRange(read("line_junction_density"), 0.0, 0.003);
        Assert.InRange(read("line_direction_spread"), 0.6, 1.0);
        Assert.InRange(read("line_longest_share"), 0.0, 0.3);
        Assert.InRange(read("line_arc_share"), 0.0, 0.4);
        Assert.Equal(0.0, read("line_through_share"));
    }

    [Fact]
    public void Measure_seam_runs_through_the_photo()
    {
        var read = Measure((x, y) => Math.Abs((0.3 * x) + 130.0 - y));

        Assert.InRange(read("line_through_share"), 0.9, 1.0);
        Assert.InRange(read("line_longest_share"), 0.9, 1.0);
        Assert.InRange(read("line_straightness"), 0.98, 1.0);
    }

    // A circle of radius r has curvature 1 / r.
    [Fact]
    public void Measure_circle_has_the_curvature_of_its_radius()
    {
        var read = Measure((x, y) => Math.Abs(Math.Sqrt(((x - 240) * (x - 240)) + ((y - 240) * (y - 240))) - 100.0));

        Assert.Equal(0.01, read("line_curvature"), 0.0005);
        Assert.Equal(1.0, read("line_arc_share"));
        Assert.Equal(1.0, read("line_cell_count"));
        Assert.Equal(2.0 * Math.PI * 100.0 / (Side * Side), read("line_density"), 0.03 * 2.0 * Math.PI * 100.0 / (Side * Side));
        Assert.InRange(read("line_direction_spread"), 0.97, 1.0);
    }

    [Fact]
    public void Measure_crossing_scratches_stay_two_lines()
    {
        using var scope = new PlaneScope();
        var plane = Draw((x, y) => Math.Min(InFrame(x, y, Math.Abs(x - y)), InFrame(x, y, Math.Abs(x + y - Side))));

        var lines = LineReading.Of(LineFinder.Find(plane, scope));

        Assert.Equal(2, lines.Lines.Count);
        Assert.Equal(1, lines.Junctions);
        Assert.Equal(4, lines.FreeEnds);
        Assert.All(lines.Lines, line => Assert.Equal(400 * Math.Sqrt(2.0), line.LengthPx, 12.0));
    }

    private static double InFrame(int x, int y, double distance) => x is > 40 and < 440 && y is > 40 and < 440 ? distance : 99.0;

    private static Func<int, int, double> Scratches() => (x, y) =>
    {
        var across = (0.94 * y) - (0.342 * x);
        return InFrame(x, y, Math.Abs(across - (24.0 * Math.Round(across / 24.0))));
    };

    // Arcs of 60 to 200 degrees around a light.
    private static Func<int, int, double> Swirl() => (x, y) =>
    {
        var (dx, dy) = (x - 240.0, y - 240.0);
        var radius = Math.Sqrt((dx * dx) + (dy * dy));
        var ring = (int)Math.Round(radius / 22.0);
        var turn = (Math.Atan2(dy, dx) + Math.PI + (ring * 1.7)) % (2.0 * Math.PI);
        return ring is >= 2 and <= 9 && turn < 1.0 + (0.3 * ring) ? Math.Abs(radius - (22.0 * ring)) : 99.0;
    };

    // One crooked crack of 70 to 100 px in each of sixteen squares.
    private static Func<int, int, double> SeparateCracks()
    {
        var random = new Random(5);
        var cracks = Enumerable.Range(0, 16).Select(i => (
            X: 75.0 + (110.0 * (i % 4)),
            Y: 75.0 + (110.0 * (i / 4)),
            Angle: Math.PI * random.NextDouble(),
            HalfPx: 35.0 + (15.0 * random.NextDouble()),
            Phase: 2.0 * Math.PI * random.NextDouble())).ToArray();
        return (x, y) => cracks.Min(crack =>
        {
            var (sine, cosine) = Math.SinCos(crack.Angle);
            var along = (cosine * (x - crack.X)) + (sine * (y - crack.Y));
            var across = (cosine * (y - crack.Y)) - (sine * (x - crack.X));
            return Math.Abs(along) < crack.HalfPx ? Math.Abs(across - (5.0 * Math.Sin((along / 9.0) + crack.Phase))) : 99.0;
        });
    }

    // Borders of the cells of scattered points: distance to the border is half of the difference, nearly.
    private static Func<int, int, double> Cells()
    {
        var random = new Random(11);
        var points = Enumerable.Range(0, 70).Select(_ => (X: random.NextDouble() * Side, Y: random.NextDouble() * Side)).ToArray();
        return (x, y) =>
        {
            var (first, second) = (double.MaxValue, double.MaxValue);
            foreach (var point in points)
            {
                var distance = Math.Sqrt(Math.Pow(point.X - x, 2.0) + Math.Pow(point.Y - y, 2.0));
                (first, second) = distance < first ? (distance, first) : (first, Math.Min(second, distance));
            }

            return (second - first) / 2.0;
        };
    }

    private static Plane Draw(Func<int, int, double> distance) => Pattern.Draw(
        Side, Side, (x, y) => 60.0 - (25.0 * Math.Exp(-0.5 * Math.Pow(distance(x, y) / 1.2, 2.0))));

    private static Func<string, double> Measure(Func<int, int, double> distance)
    {
        var lightness = Draw(distance);
        var panel = Pattern.Gray(Pattern.Draw(Side, Side, (x, y) => Pattern.Linear(lightness[x, y])));
        var measurements = new List<Measurement>();
        LineMetrics.Measure(panel, null, measurements);
        return metric => measurements.Single(one => one.Metric == metric).Value!.Value;
    }
}
