namespace CoatScan.Findings;

/// <summary>Half-open rectangle of one photo, origin top left, after orientation.</summary>
/// <param name="PhotoIndex">Index into the finding's photos, from 0.</param>
/// <param name="StartXPx">Inclusive left edge, pixels of the original photo.</param>
/// <param name="StartYPx">Inclusive top edge, pixels.</param>
/// <param name="EndXPx">Exclusive right edge, pixels.</param>
/// <param name="EndYPx">Exclusive bottom edge, pixels.</param>
/// <param name="WidthMm">Width, millimeters; null without a scale.</param>
/// <param name="HeightMm">Height, millimeters; null without a scale.</param>
public sealed record Region(
    int PhotoIndex,
    int StartXPx,
    int StartYPx,
    int EndXPx,
    int EndYPx,
    double? WidthMm = null,
    double? HeightMm = null);
