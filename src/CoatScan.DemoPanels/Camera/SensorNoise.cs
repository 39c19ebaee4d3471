using CoatScan.DemoPanels.Surface;

namespace CoatScan.DemoPanels.Camera;

/// <summary>Quick normal deviates: five from each 64-bit random number through a table of quantiles.</summary>
internal sealed class SensorNoise(PanelRandom random)
{
    private const int TableSize = 4096;
    private static readonly float[] Normal = BuildTable();
    private ulong _bits;
    private int _left;

    /// <summary>Fills a row with deviates; the next row goes on where this one ends.</summary>
    public void Fill(Span<float> row)
    {
        while (!row.IsEmpty)
        {
            if (_left == 0)
            {
                _bits = random.Next();
                _left = 5;
            }

            var count = Math.Min(_left, row.Length);
            foreach (ref var value in row[..count])
            {
                value = Normal[(int)(_bits & (TableSize - 1))];
                _bits >>= 12;
            }

            _left -= count;
            row = row[count..];
        }
    }

    private static float[] BuildTable()
    {
        // The seed is arbitrary; a fixed table of draws has the right shape and, after centering, no bias.
        var source = new PanelRandom(2027);
        var table = new float[TableSize];
        var mean = 0f;
        for (var i = 0; i < TableSize; i++)
        {
            table[i] = source.Gaussian();
            mean += table[i] / TableSize;
        }

        for (var i = 0; i < TableSize; i++)
        {
            table[i] -= mean;
        }

        return table;
    }
}
