namespace CoatScan.Findings;

/// <summary>What was done to the color of a photo, and what a scale card says about its exposure.</summary>
/// <param name="Source">Where the color of the light is known from.</param>
/// <param name="RedGain">Factor on linear red, above 0; 1 if nothing was changed.</param>
/// <param name="BlueGain">Factor on linear blue, above 0; 1 if nothing was changed.</param>
/// <param name="Reason">What the photo offered, a part of a sentence.</param>
public sealed record PhotoColor(WhiteBalanceSource Source, double RedGain, double BlueGain, string Reason)
{
    /// <summary>Relative uncertainty of the gains, 95 % half width; null unless they come from a card.</summary>
    public double? Uncertainty { get; init; }

    /// <summary>Linear level of the card's white paper, [0, 1], 1 is clipped; null without a card, or if it is clipped, hidden or
    /// unevenly lit.</summary>
    public double? PaperLevel { get; init; }

    /// <summary>Nothing is known.</summary>
    public static PhotoColor Unknown { get; } = new(WhiteBalanceSource.Camera, 1, 1, "");
}
