namespace CoatScan.DemoPanels;

/// <summary>One photo of the demo set.</summary>
/// <param name="FileName">Suggested file name, lower case, with extension.</param>
/// <param name="VisualClass">What it shows, one of <see cref="VisualClassIds.All"/>.</param>
/// <param name="MmPerPx">Scale at the center of the photo, mm per pixel; null for <c>not_a_panel</c>.</param>
/// <param name="Jpeg">The JPEG file's bytes.</param>
public sealed record DemoPhoto(string FileName, string VisualClass, double? MmPerPx, byte[] Jpeg);
