namespace CoatScan.Classification;

/// <summary>One photo as numbers: what the frozen network and the texture measurements say about it.</summary>
public sealed record PhotoFeatures
{
    /// <summary>The network's last pooling for the whole picture, 512 values.</summary>
    public required float[] Whole { get; init; }

    /// <summary>The same for every tile of <see cref="TileGrid"/>, row by row.</summary>
    public required float[][] Tiles { get; init; }

    /// <summary>Hand-made texture features in the order of the metric set's feature names.</summary>
    public required float[] Hand { get; init; }

    /// <summary>Mean over the tiles, value by value.</summary>
    public float[] TileMean()
    {
        var mean = new float[Tiles[0].Length];
        foreach (var tile in Tiles)
        {
            for (var i = 0; i < mean.Length; i++)
            {
                mean[i] += tile[i] / Tiles.Length;
            }
        }

        return mean;
    }

    /// <summary>Maximum over the tiles, value by value: a fault in one tile must not drown in eight sound ones.</summary>
    public float[] TileMax()
    {
        var max = (float[])Tiles[0].Clone();
        foreach (var tile in Tiles)
        {
            for (var i = 0; i < max.Length; i++)
            {
                max[i] = Math.Max(max[i], tile[i]);
            }
        }

        return max;
    }
}
