namespace CoatScan.Classification;

/// <summary>One photo as numbers: what the panel network says about it, averaged over two looks.</summary>
public sealed record PhotoFeatures
{
    /// <summary>Mean of the network's last features over the picture, 512 values.</summary>
    public required float[] Mean { get; init; }

    /// <summary>Strongest response of the same features anywhere in the picture, 512 values.</summary>
    public required float[] Peak { get; init; }

    /// <summary>The network's own answer for the picture: the mean logarithm of each visual class's probability.</summary>
    public required float[] Answer { get; init; }

    /// <summary>The logarithms for every cell of a 14 x 14 grid, class by class, of the larger picture alone.</summary>
    public required float[] Cells { get; init; }
}
