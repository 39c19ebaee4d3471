using CoatScan.Findings;
using CoatScan.Imaging.Cards;

namespace CoatScan.Imaging;

/// <summary>How the color of the light was taken out of a photo.</summary>
/// <param name="RedGain">Factor on linear red, above 0; 1 if nothing was changed.</param>
/// <param name="BlueGain">Factor on linear blue, above 0; 1 if nothing was changed.</param>
/// <param name="Reason">One sentence: what the photo offered.</param>
public sealed record WhiteBalance(double RedGain, double BlueGain, string Reason)
{
    /// <summary>Where the color of the light is known from.</summary>
    public WhiteBalanceSource Source => Card is not null ? WhiteBalanceSource.Card
        : IsCorrected ? WhiteBalanceSource.Highlights
        : WhiteBalanceSource.Camera;

    /// <summary>What a card's neutral places gave; null unless the gains are theirs.</summary>
    public GrayReading? Card { get; init; }

    /// <summary>The photo was changed.</summary>
    public bool IsCorrected => RedGain != 1 || BlueGain != 1;
}
