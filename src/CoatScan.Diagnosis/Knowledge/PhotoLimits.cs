namespace CoatScan.Diagnosis;

/// <summary>What a photo must show before it counts as a form.</summary>
/// <param name="ClassMinShare">Share of the leading visual class among those on a panel, (0, 1).</param>
/// <param name="ClassMinRatio">Its lead over the second, 1 or more.</param>
public sealed record PhotoLimits(double ClassMinShare, double ClassMinRatio);
