namespace CoatScan.Findings;

/// <summary>Where the color of the light is known from.</summary>
public enum WhiteBalanceSource
{
    /// <summary>It is not: the photo stays as the camera balanced it.</summary>
    Camera,

    /// <summary>Highlights on a colored panel.</summary>
    Highlights,

    /// <summary>The paper and gray patches of a scale card in the photo.</summary>
    Card,
}
