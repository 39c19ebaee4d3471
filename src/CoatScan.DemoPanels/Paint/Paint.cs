namespace CoatScan.DemoPanels.Paint;

/// <summary>The visible finish of a panel.</summary>
/// <param name="Albedo">Diffuse reflectance, linear.</param>
/// <param name="FlakeContrast">How much flakes sparkle, relative to the color; 0 for solid colors.</param>
/// <param name="SpecularF0">Mirror reflectance at normal view; 0.04 for n = 1.5.</param>
/// <param name="RoughnessUm">Fine rms roughness, micrometers: about 0.02 for new gloss, 0.2 and more for satin.</param>
internal sealed record Paint(Rgb Albedo, float FlakeContrast, float SpecularF0, float RoughnessUm);
