using CoatScan.Metrics;

namespace CoatScan.Imaging.Cards;

/// <summary>A scale card that was found in a photo.</summary>
/// <param name="Message">What its code says.</param>
/// <param name="MmPerPx">Millimeters per pixel of the oriented original photo at the middle of the code: the root of area over area,
/// so that a tilted panel gives the mean of its directions.</param>
/// <param name="TiltDegrees">Angle between the line of sight to the code and the normal of the panel, [0, 90), from how much shorter one
/// direction shows than the other. Below about 5 degrees it says no more than "hardly tilted": the cosine is flat there.</param>
public sealed record CardReading(CardMessage Message, double MmPerPx, double TiltDegrees)
{
    /// <summary>The scale at every place of the card's plane; pixels are those of the photo at working size.</summary>
    public required PlaneScale Scale { get; init; }

    /// <summary>Its corners from the upper left one on, clockwise as it is printed, pixels of the oriented original photo.</summary>
    public required IReadOnlyList<(double X, double Y)> Corners { get; init; }

    /// <summary>Relative uncertainty of <see cref="MmPerPx"/>, 95 % half width: of the fit and of the print.</summary>
    public required double Uncertainty { get; init; }

    /// <summary>What the card's neutral places say about the light.</summary>
    public required GrayReading Gray { get; init; }
}
