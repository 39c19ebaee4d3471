namespace CoatScan.Classification;

/// <summary>What the photo model says about one row.</summary>
internal sealed class PhotoScore
{
    /// <summary>Uncalibrated probabilities in the order of the visual classes.</summary>
    public float[] Score { get; set; } = [];

    /// <summary>Coordinates in the principal-component space of the training features.</summary>
    public float[] Position { get; set; } = [];
}
