using System.Globalization;
using CoatScan.Storage.Photos;
using Google.Protobuf.WellKnownTypes;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>Stored photos -> contract.</summary>
internal static class StoredPhotoMapping
{
    public static Wire.Photo ToWire(StoredPhoto photo)
    {
        var wire = new Wire.Photo
        {
            Name = photo.Name,
            Sha256 = photo.Sha256,
            SizeBytes = photo.SizeBytes,
            MediaType = photo.Description.MediaType,
            WidthPx = photo.Description.WidthPx,
            HeightPx = photo.Description.HeightPx,
            CreateTime = Timestamp.FromDateTimeOffset(photo.CreateTime),
            ExpireTime = Timestamp.FromDateTimeOffset(photo.ExpireTime),
            DisplayName = photo.Description.DisplayName,
            PictureHash = HashText(photo.Description.PerceptualHash),
        };
        if (photo.Description.CaptureTime is { } captureTime)
        {
            wire.CaptureTime = captureTime;
        }

        return wire;
    }

    public static Wire.SimilarPhoto ToWire(SimilarPhoto photo)
    {
        var wire = new Wire.SimilarPhoto
        {
            Sha256 = photo.Sha256,
            Photo = photo.IsStored ? PhotoName.Of(photo.Sha256) : "",
            DistanceBits = photo.DistanceBits,
            SameBytes = photo.SameBytes,
            FirstSeenTime = Timestamp.FromDateTimeOffset(photo.FirstSeenTime),
        };
        wire.Findings.Add(photo.Findings);
        if (photo.CaptureTime is { } captureTime)
        {
            wire.CaptureTime = captureTime;
        }

        return wire;
    }

    /// <summary>16 hex digits; empty for a picture without a hash.</summary>
    public static string HashText(ulong? hash) => hash?.ToString("x16", CultureInfo.InvariantCulture) ?? "";
}
