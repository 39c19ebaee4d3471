using System.Globalization;
using System.Security.Cryptography;
using CoatScan.Findings;
using CoatScan.Inspection;
using CoatScan.Service.Options;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>Requests of the contract -> domain, checked.</summary>
internal static class RequestMapping
{
    private const int MaxDisplayNameLength = 255;
    private const int MaxKeyLength = 255;

    /// <summary>What the caller knows; its values are checked where they are used.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID: <c>applied_on</c> is no date.</exception>
    public static PanelFacts ToFacts(Wire.PanelFacts? facts)
    {
        if (facts is null)
        {
            return new PanelFacts();
        }

        var readings = facts.Readings;
        return new PanelFacts
        {
            Evidence = [.. facts.Evidence],
            Readings = readings is null
                ? Readings.None
                : new Readings
                {
                    FilmUm = [.. readings.FilmUm],
                    Gloss60 = readings.HasGloss60 ? readings.Gloss60 : null,
                    DeltaE00 = readings.HasDeltaE00 ? readings.DeltaE00 : null,
                    FaultDepthUm = readings.HasFaultDepthUm ? readings.FaultDepthUm : null,
                    FilmPanels = [.. readings.FilmPanels.Select(one => new PanelFilm(one.Panel, [.. one.FilmUm]))],
                },
            Statements = [.. facts.Statements.Select(one => new Statement(one.Evidence, one.SaidBy))],
            AppliedOn = ToDay(facts.AppliedOn),
            MmPerPx = facts.HasMmPerPx ? facts.MmPerPx : null,
            ReflectedDistanceMm = facts.HasReflectedDistanceMm ? facts.ReflectedDistanceMm : null,
            CameraDistanceMm = facts.HasCameraDistanceMm ? facts.CameraDistanceMm : null,
            Panel = facts.Panel,
            ExternalRef = facts.ExternalRef,
        };
    }

    /// <summary>One photo.</summary>
    /// <exception cref="CoatScanException">PHOTO_TOO_LARGE, DIGEST_MISMATCH, FIELD_INVALID.</exception>
    public static PhotoBytes ToPhoto(Wire.PhotoInput? photo, string field, AnalysisOptions limits)
    {
        photo ??= new Wire.PhotoInput();
        if (photo.Content.Length > limits.MaxInlineBytes)
        {
            throw TooLarge($"{field}.content", photo.Content.Length, limits.MaxInlineBytes);
        }

        CheckDisplayName(photo.DisplayName, $"{field}.display_name");
        if (photo.Sha256.Length > 0)
        {
            var actual = Convert.ToHexStringLower(SHA256.HashData(photo.Content.Span));
            CheckDigest(photo.Sha256, actual, photo.Content.Length, field);
        }

        return new PhotoBytes(photo.Content.Memory, photo.DisplayName, field);
    }

    /// <summary>Checks a photo that is named, not carried.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID: it is carried too, or its display name is too long.</exception>
    public static void CheckNamed(Wire.PhotoInput photo, string field)
    {
        if (photo.Content.Length > 0)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"{field} must have exactly one of content and photo, not both.",
                $"{field}.photo");
        }

        CheckDisplayName(photo.DisplayName, $"{field}.display_name");
    }

    /// <summary>Checks the photos of one panel together.</summary>
    /// <exception cref="CoatScanException">PHOTO_COUNT_OUT_OF_RANGE, PHOTO_TOO_LARGE.</exception>
    public static void CheckPanel(IReadOnlyList<Wire.PhotoInput> photos, AnalysisOptions limits)
    {
        if (photos.Count is 0 or > AnalysisOptions.MaxPanelPhotoCount)
        {
            throw new CoatScanException(
                ErrorReason.PhotoCountOutOfRange,
                $"photos must hold 1 to {AnalysisOptions.MaxPanelPhotoCount} photos; {photos.Count} came.",
                "photos",
                new Dictionary<string, string>
                {
                    ["value"] = Text(photos.Count),
                    ["limit"] = Text(AnalysisOptions.MaxPanelPhotoCount),
                });
        }

        var sum = photos.Sum(photo => (long)photo.Content.Length);
        if (sum > limits.MaxPanelBytes)
        {
            throw TooLarge("photos", sum, limits.MaxPanelBytes);
        }
    }

    /// <summary>Checks the name for people of a photo.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID: it is too long.</exception>
    public static void CheckDisplayName(string name, string field) => CheckLength(name, MaxDisplayNameLength, field);

    /// <summary>Checks the digest that a request states, if it states one.</summary>
    /// <exception cref="CoatScanException">DIGEST_MISMATCH.</exception>
    public static void CheckDigest(string declared, string actual, long sizeBytes, string field)
    {
        if (declared.Length > 0 && !string.Equals(actual, declared, StringComparison.OrdinalIgnoreCase))
        {
            throw new CoatScanException(
                ErrorReason.DigestMismatch,
                $"{field}.sha256 is not the SHA-256 of the {sizeBytes} bytes that came.",
                $"{field}.sha256",
                new Dictionary<string, string> { ["declared"] = declared, ["actual"] = actual });
        }
    }

    /// <summary>Zones to compare; null if none were asked for.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID, see <see cref="ZoneCheck"/>.</exception>
    public static ZonePair? ToZones(Wire.ZonePair? zones, int photoCount)
    {
        if (zones is null)
        {
            return null;
        }

        var pair = new ZonePair(ToZone(zones.First), ToZone(zones.Second));
        ZoneCheck.Check(pair, photoCount);
        return pair;
    }

    /// <summary>The caller's key of one photo of a stream.</summary>
    public static string ToKey(string key)
    {
        CheckLength(key, MaxKeyLength, "key");
        return key;
    }

    // A zone left out has no width, which is refused by name.
    private static PhotoZone ToZone(Wire.PhotoZone? zone) => zone is null
        ? new(0, 0, 0, 0, 0)
        : new(zone.PhotoIndex, zone.XPx, zone.YPx, zone.WidthPx, zone.HeightPx);

    private static DateOnly? ToDay(string day) => day.Length == 0
        ? null
        : DateOnly.TryParseExact(day, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var parsed)
            && parsed.Year is >= 1900 and <= 2200
            ? parsed
            : throw new CoatScanException(
                ErrorReason.FieldInvalid,
                "facts.appliedOn must be a date from 1900 to 2200 as 2026-05-01.",
                "facts.appliedOn");

    private static void CheckLength(string text, int limit, string field)
    {
        if (text.Length > limit)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"{field} has {text.Length} characters; at most {limit} are allowed.",
                field,
                new Dictionary<string, string> { ["value"] = Text(text.Length), ["limit"] = Text(limit) });
        }
    }

    private static CoatScanException TooLarge(string field, long value, long limit) => new(
        ErrorReason.PhotoTooLarge,
        $"{field} has {value} bytes; at most {limit} are allowed.",
        field,
        new Dictionary<string, string> { ["what"] = "bytes", ["value"] = Text(value), ["limit"] = Text(limit) });

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
