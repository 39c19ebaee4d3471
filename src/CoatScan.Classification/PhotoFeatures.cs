namespace CoatScan.Classification;

/// <summary>One photo as numbers: what the panel network says about it.</summary>
public sealed record PhotoFeatures
{
    /// <summary>Mean of the network's last features over the picture, 512 values.</summary>
    public required float[] Mean { get; init; }

    /// <summary>Strongest response of the same features anywhere in the picture, 512 values.</summary>
    public required float[] Peak { get; init; }

    /// <summary>The network's own answer for the picture: one logit a visual class.</summary>
    public required float[] Answer { get; init; }

    /// <summary>The network's answer for every cell of a 14 x 14 grid: logits, class by class.</summary>
    public required float[] Cells { get; init; }
}
