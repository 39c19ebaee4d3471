using CoatScan.Imaging;
using CoatScan.Inspection;

namespace CoatScan.Service.Endpoints;

/// <summary>What a call asks of the workers.</summary>
/// <param name="Megapixels">Millions of pixels of the largest of its photos: one is decoded after the other.</param>
/// <param name="Deadline">When the caller stops waiting, UTC; <see cref="DateTime.MaxValue"/> for never.</param>
internal sealed record PhotoDemand(double Megapixels, DateTime Deadline)
{
    // A photo that says nothing about its size is refused at the first look; it costs next to nothing.
    private const double LeastMegapixels = 0.1;

    /// <summary>What some photos ask for.</summary>
    public static PhotoDemand Of(IReadOnlyList<PhotoBytes> photos, DateTime deadline) =>
        new(photos.Max(photo => photo.Megapixels ?? PhotoHeader.Megapixels(photo.Content.Span) ?? LeastMegapixels), deadline);
}
