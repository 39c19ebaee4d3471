namespace CoatScan.Metrics.Marks;

/// <summary>Seeds by place and size, to find those near a place without looking at all.</summary>
internal sealed class SeedGrid(int width, int height)
{
    private const int Octaves = 12;
    private const float FirstRadiusPx = 4.0f;

    private readonly Dictionary<long, List<int>>?[] _cells = new Dictionary<long, List<int>>?[Octaves];

    internal void Add(int index, SpotSeed seed)
    {
        var octave = Octave(seed.RadiusPx);
        var cells = _cells[octave] ??= [];
        var key = Key(seed.X / Cell(octave), seed.Y / Cell(octave));
        if (!cells.TryGetValue(key, out var list))
        {
            cells[key] = list = [];
        }

        list.Add(index);
    }

    /// <summary>Indexes of the seeds whose centers may be nearer than a multiple of the two radii's sum, a few more included.</summary>
    internal void Near(SpotSeed seed, double multiple, List<int> found)
    {
        found.Clear();
        for (var octave = 0; octave < Octaves; octave++)
        {
            if (_cells[octave] is not { } cells)
            {
                continue;
            }

            var cell = Cell(octave);
            var reach = (int)Math.Ceiling(multiple * (seed.RadiusPx + (FirstRadiusPx * (1 << octave))));
            for (var y = Math.Max(0, seed.Y - reach) / cell; y <= Math.Min(height - 1, seed.Y + reach) / cell; y++)
            {
                for (var x = Math.Max(0, seed.X - reach) / cell; x <= Math.Min(width - 1, seed.X + reach) / cell; x++)
                {
                    if (cells.TryGetValue(Key(x, y), out var list))
                    {
                        found.AddRange(list);
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

    private static int Cell(int octave) => 16 << octave;

    private static long Key(int x, int y) => ((long)y << 32) | (uint)x;
}
