using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Inspection;

/// <summary>Checks zones that a caller wants compared.</summary>
public static class ZoneCheck
{
    private const string Field = "compareZones";

    /// <summary>What can be checked before the photos are read.</summary>
    /// <exception cref="CoatScanException"><see cref="ErrorReason.FieldInvalid"/>: a photo that is not there, a zone too small or
    /// outside to the left or above, zones of different photos, or zones that overlap.</exception>
    public static void Check(ZonePair zones, int photoCount)
    {
        ArgumentNullException.ThrowIfNull(zones);
        foreach (var (zone, name) in Named(zones))
        {
            Require(zone.PhotoIndex >= 0 && zone.PhotoIndex < photoCount, $"{name}.photoIndex", zone.PhotoIndex, 0, photoCount - 1);
            Require(zone.XPx >= 0, $"{name}.xPx", zone.XPx, 0, null);
            Require(zone.YPx >= 0, $"{name}.yPx", zone.YPx, 0, null);
            Require(zone.WidthPx >= PhotoZone.LeastSidePx, $"{name}.widthPx", zone.WidthPx, PhotoZone.LeastSidePx, null);
            Require(zone.HeightPx >= PhotoZone.LeastSidePx, $"{name}.heightPx", zone.HeightPx, PhotoZone.LeastSidePx, null);
        }

        var (first, second) = (zones.First, zones.Second);
        if (first.PhotoIndex != second.PhotoIndex)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"{Field} must lie in one photo: light, exposure and white balance change from photo to photo, so colors of two "
                + "photos say nothing about the paint. A sheen that comes and goes with the view (bronzing) is for the eye to compare.",
                $"{Field}.second.photoIndex",
                new Dictionary<string, string> { ["value"] = Text(second.PhotoIndex), ["limit"] = Text(first.PhotoIndex) });
        }

        if (Overlap(first.XPx, first.WidthPx, second.XPx, second.WidthPx) && Overlap(first.YPx, first.HeightPx, second.YPx, second.HeightPx))
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid, $"{Field}.second must not overlap {Field}.first.", $"{Field}.second");
        }
    }

    /// <summary>What the size of the photo decides.</summary>
    /// <exception cref="CoatScanException"><see cref="ErrorReason.FieldInvalid"/>: a zone reaches out of the photo.</exception>
    public static void CheckInside(ZonePair zones, PhotoReport photo)
    {
        ArgumentNullException.ThrowIfNull(zones);
        ArgumentNullException.ThrowIfNull(photo);
        foreach (var (zone, name) in Named(zones))
        {
            Require(zone.XPx <= photo.WidthPx - (long)zone.WidthPx, $"{name}.xPx", zone.XPx, 0, photo.WidthPx - zone.WidthPx);
            Require(zone.YPx <= photo.HeightPx - (long)zone.HeightPx, $"{name}.yPx", zone.YPx, 0, photo.HeightPx - zone.HeightPx);
        }
    }

    private static (PhotoZone Zone, string Name)[] Named(ZonePair zones) =>
        [(zones.First, $"{Field}.first"), (zones.Second, $"{Field}.second")];

    private static bool Overlap(long start, long length, long otherStart, long otherLength) =>
        start < otherStart + otherLength && otherStart < start + length;

    private static void Require(bool holds, string field, long value, long least, long? most)
    {
        if (holds)
        {
            return;
        }

        var range = most is { } limit
            ? limit < least ? "is too large for the photo" : $"must be in [{Text(least)}, {Text(limit)}]"
            : $"must be at least {Text(least)}";
        throw new CoatScanException(
            ErrorReason.FieldInvalid,
            $"{field} {range}; {Text(value)} came.",
            field,
            new Dictionary<string, string> { ["value"] = Text(value), ["limit"] = Text(most ?? least) });
    }

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
