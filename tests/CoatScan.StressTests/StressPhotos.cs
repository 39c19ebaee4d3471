using CoatScan.DemoPanels;
using CoatScan.V1;
using Google.Protobuf;

namespace CoatScan.StressTests;

/// <summary>Photos of invented panels, as many different ones as needed.</summary>
internal static class StressPhotos
{
    private const int DifferentSmallOnes = 100;

    private static readonly Lazy<byte[][]> SmallOnes = new(() =>
        [.. Enumerable.Range(0, DifferentSmallOnes).Select(i => SmallPanel(i % 2 == 0 ? "chips" : "sound", 500 + (ulong)i))]);

    /// <summary>A photo of the size that demo panels have.</summary>
    public static byte[] Ordinary { get; } = DemoPanelRenderer.Render("chips", 11, new DemoPanelOptions()).EncodeJpeg(88);

    /// <summary>A photo that costs little, for trials that are about many.</summary>
    public static byte[] Small { get; } = SmallPanel("chips", 12);

    /// <summary>A photo as small, of one of many panels that look different.</summary>
    public static byte[] SmallOf(int number) => SmallOnes.Value[number % SmallOnes.Value.Length];

    /// <summary>The same picture in other bytes: a comment at the start of the JPEG says which it is.</summary>
    public static byte[] Variant(byte[] jpeg, int number) =>
        [.. jpeg.AsSpan(0, 2), 0xFF, 0xFE, 0, 6, .. BitConverter.GetBytes(number), .. jpeg.AsSpan(2)];

    /// <summary>A request to judge a photo that it carries.</summary>
    public static AnalyzePhotoRequest Request(byte[] photo) => new() { Photo = new PhotoInput { Content = ByteString.CopyFrom(photo) } };

    private static byte[] SmallPanel(string visualClass, ulong seed) =>
        DemoPanelRenderer.Render(visualClass, seed, new DemoPanelOptions { WidthPx = 200, HeightPx = 160 }).EncodeJpeg(80);
}
