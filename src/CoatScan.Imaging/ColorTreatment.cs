namespace CoatScan.Imaging;

/// <summary>What was done to the color of a photo.</summary>
/// <param name="SourceColorSpace">Color space of the received pixels, for example "sRGB".</param>
/// <param name="OutOfGamutFraction">Share of pixels, [0, 1], that lay outside sRGB and were clipped to it.</param>
/// <param name="WhiteBalance">Whether and how the color of the light was taken out.</param>
public sealed record ColorTreatment(string SourceColorSpace, double OutOfGamutFraction, WhiteBalance WhiteBalance);
