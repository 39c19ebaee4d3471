namespace CoatScan.Training.Rendering;

/// <summary>Which panels to render. Sets never share a seed.</summary>
/// <param name="Name">What the set is for.</param>
/// <param name="FirstSeed">Seed of the first panel of each class; the others follow.</param>
/// <param name="PerClass">Panels of each class.</param>
/// <param name="Harsh">Whether the camera is worse than that of a careful user.</param>
internal sealed record RenderedSet(string Name, int FirstSeed, int PerClass, bool Harsh);
