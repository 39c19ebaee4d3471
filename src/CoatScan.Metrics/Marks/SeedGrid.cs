namespace CoatScan.Metrics.Marks;

/// <summary>Seeds by place and size, to find those near a place without looking at all.</summary>
internal sealed class SeedGrid(int width, int height)
{
    private const int Octaves = 12;
    private const float FirstRadiusPx = 4.0f;
    private const int CellShift = 4;
    private const int None = -1;

    // The last seed of each cell, and for each seed the one before it in its cell.
    private readonly int[]?[] _lastOfCell = new int[]?[Octaves];
    private readonly List<int> _before = [];

    /// <summary>Adds a seed; indexes come rising from 0.</summary>
    internal void Add(int index, SpotSeed seed)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(index, _before.Count);
        var octave = Octave(seed.RadiusPx);
        var cells = _lastOfCell[octave];
        if (cells is null)
        {
            cells = new int[Across(octave) * (((height - 1) / Cell(octave)) + 1)];
            Array.Fill(cells, None);
            _lastOfCell[octave] = cells;
        }

        ref var last = ref cells[(seed.Y / Cell(octave) * Across(octave)) + (seed.X / Cell(octave))];
        _before.Add(last);
        last = index;
    }

    /// <summary>Indexes of the seeds whose centers may be nearer than a multiple of the two radii's sum, a few more included.</summary>
    internal void Near(SpotSeed seed, double multiple, List<int> found)
    {
        found.Clear();
        for (var octave = 0; octave < Octaves; octave++)
        {
            if (_lastOfCell[octave] is not { } cells)
            {
                continue;
            }

            var (shift, across) = (CellShift + octave, Across(octave));
            var reach = (int)Math.Ceiling(multiple * (seed.RadiusPx + (FirstRadiusPx * (1 << octave))));
            var (left, right) = (Math.Max(0, seed.X - reach) >> shift, Math.Min(width - 1, seed.X + reach) >> shift);
            for (var y = Math.Max(0, seed.Y - reach) >> shift; y <= Math.Min(height - 1, seed.Y + reach) >> shift; y++)
            {
                for (var x = left; x <= right; x++)
                {
                    for (var i = cells[(y * across) + x]; i != None; i = _before[i])
                    {
                        found.Add(i);
                    }
                }
            }
        }
    }

    private static int Octave(float radiusPx)
    {
        var octave = 0;
        while (octave < Octaves - 1 && radiusPx > FirstRadiusPx * (1 << octave))
        {
            octave++;
        }

        return octave;
    }

    private static int Cell(int octave) => 1 << (CellShift + octave);

    private int Across(int octave) => ((width - 1) / Cell(octave)) + 1;
}
