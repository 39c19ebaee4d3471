using CoatScan.DemoPanels.Paint;

namespace CoatScan.DemoPanels.Defects;

/// <summary>How a spot on or in the film looks.</summary>
/// <param name="Color">Its diffuse reflectance.</param>
/// <param name="Opacity">How much of the paint it hides, [0, 1].</param>
/// <param name="RoughnessUm">Fine rms roughness of its surface, micrometers.</param>
/// <param name="Slope">Slope of its flank; below 0 it is sunken.</param>
/// <param name="SpecularF0">Mirror reflectance at normal view.</param>
/// <param name="Mottling">How patchy it is, [0, 1].</param>
/// <param name="Softness">Width of its fading edge as a share of its radius; 0 for a crisp edge.</param>
internal sealed record SpotLook(
    Rgb Color, float Opacity, float RoughnessUm, float Slope, float SpecularF0, float Mottling, float Softness = 0f);
