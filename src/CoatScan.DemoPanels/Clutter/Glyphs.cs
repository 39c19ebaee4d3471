using CoatScan.DemoPanels.Surface;
using CoatScan.Metrics;

namespace CoatScan.DemoPanels.Clutter;

/// <summary>
/// An invented alphabet: each letter is a few strokes between points of a 3 x 5 grid, so it has the look of print and
/// says nothing.
/// </summary>
internal sealed class Glyphs
{
    private const int Letters = 18;
    private readonly (int From, int To)[][] _strokes = new (int, int)[Letters][];

    public Glyphs(PanelRandom random)
    {
        for (var i = 0; i < Letters; i++)
        {
            var count = random.Whole(2, 5);
            _strokes[i] = new (int, int)[count];
            var at = random.Whole(0, 15);
            for (var s = 0; s < count; s++)
            {
                var next = Neighbor(random, at);
                _strokes[i][s] = (at, next);
                at = random.Chance(0.75f) ? next : random.Whole(0, 15);
            }
        }
    }

    /// <summary>Draws one letter at a place given in the rotated frame of its word.</summary>
    public void Draw(
        Plane ink, PanelRandom random, float left, float top, float size, float weight, float x0, float y0, float angle)
    {
        var cos = MathF.Cos(angle);
        var sin = MathF.Sin(angle);
        Span<StrokePoint> line = stackalloc StrokePoint[2];
        foreach (var (from, to) in _strokes[random.Whole(0, Letters)])
        {
            line[0] = Place(from);
            line[1] = Place(to);
            Stroke.Draw(ink, line);
        }

        StrokePoint Place(int node)
        {
            var x = left + ((node % 3) * size * 0.25f);
            var y = top + ((node / 3) * size * 0.25f);
            return new StrokePoint(x0 + (x * cos) - (y * sin), y0 + (x * sin) + (y * cos), 0.5f * weight);
        }
    }

    // Strokes run straight along rows, columns or diagonals, as in print.
    private static int Neighbor(PanelRandom random, int node)
    {
        var column = node % 3;
        var row = node / 3;
        return random.Whole(0, 3) switch
        {
            0 => ((random.Chance(0.5f) ? 0 : 4) * 3) + column,
            1 => (row * 3) + (column == 0 ? 2 : 0),
            _ => (Math.Clamp(row + (random.Chance(0.5f) ? 2 : -2), 0, 4) * 3) + (column == 1 ? random.Whole(0, 3) : 2 - column),
        };
    }
}
