namespace CoatScan.Imaging.Cards;

/// <summary>Gathers crossings of finder patterns: those less than two modules from a known center make it surer, others are new.</summary>
/// <remarks>Fine stripes cross tens of thousands of times. Centers lie in squares of a size that goes by their modules, so that few are looked at.</remarks>
internal sealed class PatternCenters
{
    // Two modules of less than 2 pixels; for each doubling of the module a grid of its own with squares twice as large.
    private const int SmallestSquarePx = 4;

    private readonly List<PatternCenter> _all = [];
    private readonly Dictionary<(int Octave, int X, int Y), List<int>> _squares = [];
    private int _octaves;

    /// <summary>All centers, in the order of their first crossing.</summary>
    public IReadOnlyList<PatternCenter> All => _all;

    /// <summary>Adds one crossing to the first center that it belongs to, which moves to the mean of its crossings.</summary>
    public void Add(double x, double y, double module)
    {
        var found = new PatternCenter(x, y, module, 1);
        if (Find(found) is not { } index)
        {
            _all.Add(found);
            Put(_all.Count - 1);
            return;
        }

        var known = _all[index];
        double share = 1.0 / (known.Crossings + 1);
        var moved = new PatternCenter(
            known.X + (share * (x - known.X)),
            known.Y + (share * (y - known.Y)),
            known.Module + (share * (module - known.Module)),
            known.Crossings + 1);
        var before = SquareOf(known);
        _all[index] = moved;
        if (SquareOf(moved) != before)
        {
            _squares[before].Remove(index);
            Put(index);
        }
    }

    private int? Find(PatternCenter found)
    {
        int? first = null;
        for (int octave = 0; octave < _octaves; octave++)
        {
            var (_, column, row) = SquareAt(octave, found);
            for (int i = 0; i < 9; i++)
            {
                if (_squares.TryGetValue((octave, column + (i % 3) - 1, row + (i / 3) - 1), out var square))
                {
                    foreach (int index in square)
                    {
                        if (!(index > first) && _all[index].DistanceTo(found) < 2 * _all[index].Module)
                        {
                            first = index;
                        }
                    }
                }
            }
        }

        return first;
    }

    private void Put(int index)
    {
        var at = SquareOf(_all[index]);
        _octaves = Math.Max(_octaves, at.Octave + 1);
        if (!_squares.TryGetValue(at, out var square))
        {
            _squares.Add(at, square = []);
        }

        square.Add(index);
    }

    private static (int Octave, int X, int Y) SquareOf(PatternCenter center) =>
        SquareAt(Math.Max(0, Math.ILogB(center.Module)), center);

    private static (int Octave, int X, int Y) SquareAt(int octave, PatternCenter center)
    {
        double side = SmallestSquarePx << octave;
        return (octave, (int)(center.X / side), (int)(center.Y / side));
    }
}
