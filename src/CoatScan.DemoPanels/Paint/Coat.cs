namespace CoatScan.DemoPanels.Paint;

/// <summary>One coat, or the metal below all coats.</summary>
/// <param name="Albedo">Diffuse reflectance, linear.</param>
/// <param name="ThicknessMm">Thickness, mm; 0 for metal.</param>
/// <param name="SpecularF0">Mirror reflectance at normal view when this coat is the outermost.</param>
/// <param name="RoughnessUm">Fine rms roughness when this coat is the outermost, micrometers.</param>
/// <param name="IsMetal">Whether this is bare metal.</param>
internal sealed record Coat(Rgb Albedo, float ThicknessMm, float SpecularF0, float RoughnessUm, bool IsMetal = false);
