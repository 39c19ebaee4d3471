using System.Globalization;
using System.Security.Cryptography;
using CoatScan.Findings;
using CoatScan.Imaging.Cards;
using CoatScan.Imaging.Normalizing;
using CoatScan.Metrics;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Quality;
using CoatScan.Metrics.Zones;

namespace CoatScan.Imaging;

/// <summary>From received bytes to a panel that can be measured.</summary>
/// <remarks>
/// <para>Decodes, turns as EXIF says, makes the values linear, reduces by averaging area, brings wide-gamut colors to sRGB, looks for a
/// scale card, takes out the color of the light if the card or highlights show it (<see cref="WhiteBalance.Reason"/> tells), and judges
/// the photo as a photo.</para>
/// <para>Deterministic: equal bytes, scale and options give equal results. Thread safe if the decoder is.</para>
/// </remarks>
public sealed class PhotoNormalizer
{
    // 95 % of all places and directions in a photo whose camera looks at the panel within 10 degrees of square, as photos for this are to
    // be taken: pinhole geometry, focal length 0.72 of the longer side, tilts up to 10 degrees equally likely; 12.3 % computed.
    private const double StatedScaleUncertainty = 0.125;

    private readonly IPhotoDecoder _decoder;
    private readonly ImagingOptions _options;

    /// <summary>A normalizer over a decoder.</summary>
    /// <exception cref="ArgumentOutOfRangeException">An option is outside its range.</exception>
    public PhotoNormalizer(IPhotoDecoder decoder, ImagingOptions options)
    {
        ArgumentNullException.ThrowIfNull(decoder);
        ArgumentNullException.ThrowIfNull(options);
        options.Validate();
        _decoder = decoder;
        _options = options;
    }

    /// <summary>Normalizes one photo.</summary>
    /// <param name="bytes">The photo as it was received.</param>
    /// <param name="mmPerPx">Millimeters per pixel of the oriented original photo, [0.0001, 100]; null if unknown. What the caller
    /// states wins over a card in the photo; where the two differ, the report says so.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <exception cref="CoatScanException">The photo is refused, or the scale is out of range.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public NormalizedPhoto Normalize(ReadOnlyMemory<byte> bytes, double? mmPerPx, CancellationToken cancellationToken) =>
        Normalize(bytes, mmPerPx, null, cancellationToken);

    /// <summary>The same for a photo of which two zones are to be compared: what storing did to their colors is read from the file.</summary>
    /// <param name="bytes">The photo as it was received.</param>
    /// <param name="mmPerPx">Millimeters per pixel, as above.</param>
    /// <param name="zones">The zones, pixels of the oriented original photo; null for none.</param>
    /// <param name="cancellationToken">Stops the work.</param>
    /// <exception cref="CoatScanException">The photo is refused, or the scale is out of range.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public NormalizedPhoto Normalize(
        ReadOnlyMemory<byte> bytes, double? mmPerPx, ZonePair? zones, CancellationToken cancellationToken)
    {
        RequireScale(mmPerPx);
        ReducedPhoto reduced;
        string colorSpace;
        double outOfGamut;
        PhotoReport report;
        CardReading? card;
        LostTexture lost;
        StoredZones? stored;
        using (DecodedPhoto decoded = _decoder.Decode(bytes, cancellationToken))
        {
            reduced = AreaReducer.Reduce(decoded, _options.WorkingMegapixels * 1e6, cancellationToken);
            outOfGamut = GamutMapper.Apply(reduced, decoded.ColorSpace.ToSrgb);
            colorSpace = decoded.ColorSpaceName;
            lost = LostTexture.Of(decoded, reduced.OriginalPxPerPx);
            stored = zones is null
                ? null
                : new StoredZones(ZoneRounding.Of(decoded, zones.First), ZoneRounding.Of(decoded, zones.Second));
            card = ScaleCardFinder.Find(reduced);
            report = new PhotoReport
            {
                Sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes.Span)),
                WidthPx = decoded.WidthPx,
                HeightPx = decoded.HeightPx,
                CaptureTime = decoded.CaptureTime,
                PictureHash = PhotoIdentifier.HashOf(decoded),
                Scale = ScaleOf(mmPerPx, card),
            };
        }

        cancellationToken.ThrowIfCancellationRequested();
        WhiteBalance balance = LightColor.Find(reduced, card);
        LightColor.TakeOut(reduced, balance);
        PlaneScale? scale = PlaneScaleOf(mmPerPx, card, reduced.OriginalPxPerPx);
        var lab = LabPlanes.FromLinear(reduced.Red, reduced.Green, reduced.Blue);
        var planes = new PanelPlanes
        {
            Red = reduced.Red,
            Green = reduced.Green,
            Blue = reduced.Blue,
            Lightness = lab.Lightness,
            AStar = lab.AStar,
            BStar = lab.BStar,
            Clipped = reduced.Clipped,
            MmPerPx = report.Scale.MmPerPx * reduced.OriginalPxPerPx,
            Scale = scale,
            ScaleUncertainty = UncertaintyOf(scale, report.Scale, reduced),
            OriginalPxPerPx = reduced.OriginalPxPerPx,
        };
        var capture = CaptureReading.Of(planes);
        report = report with
        {
            Color = new PhotoColor(balance.Source, balance.RedGain, balance.BlueGain, balance.Reason)
            {
                Uncertainty = balance.Card?.Uncertainty,
                PaperLevel = card?.Gray.PaperLevel,
            },
        };
        report = report with { Issues = PhotoQuality.Judge(capture, report, card, lost) };
        return new NormalizedPhoto(planes, capture, report, new ColorTreatment(colorSpace, outOfGamut, balance))
        {
            Card = card,
            Stored = stored is null
                ? null
                : new StoredZones(
                    stored.First.Times(balance.RedGain, 1, balance.BlueGain), stored.Second.Times(balance.RedGain, 1, balance.BlueGain)),
        };
    }

    private static PhotoScale ScaleOf(double? callerMmPerPx, CardReading? card) => (callerMmPerPx, card) switch
    {
        ({ } stated, _) => new PhotoScale(ScaleSource.Caller, stated)
        {
            TiltDegrees = card?.TiltDegrees,
            Uncertainty = StatedUncertainty(stated, card),
        },
        (null, { } found) => new PhotoScale(ScaleSource.Card, found.MmPerPx)
        {
            TiltDegrees = found.TiltDegrees,
            Uncertainty = found.Uncertainty,
        },
        _ => PhotoScale.Unknown,
    };

    // A card shows the panel's perspective also where the caller states the scale.
    private static PlaneScale? PlaneScaleOf(double? callerMmPerPx, CardReading? card, double originalPxPerPx) => (callerMmPerPx, card) switch
    {
        ({ } stated, { } found) => found.Scale.Times(stated / found.MmPerPx, StatedUncertainty(stated, card)),
        ({ } stated, null) => PlaneScale.Constant(stated * originalPxPerPx, StatedScaleUncertainty),
        (null, { } found) => found.Scale,
        _ => null,
    };

    // Where a card says otherwise, either may be right.
    private static double StatedUncertainty(double stated, CardReading? card)
    {
        double apart = card is null ? 0 : (stated / card.MmPerPx) - 1;
        return Math.Sqrt((StatedScaleUncertainty * StatedScaleUncertainty) + (apart * apart));
    }

    private static double? UncertaintyOf(PlaneScale? scale, PhotoScale stated, ReducedPhoto photo)
    {
        if (scale is null || stated.MmPerPx is not { } mmPerPx || stated.Uncertainty is not { } atCard)
        {
            return null;
        }

        double spread = scale.SpreadOver(photo.Green.Width, photo.Green.Height, mmPerPx * photo.OriginalPxPerPx);
        return Math.Sqrt((spread * spread) + (atCard * atCard));
    }

    private static void RequireScale(double? mmPerPx)
    {
        // From a microscope to a parking lot; written so that NaN fails.
        if (mmPerPx is { } value && !(value is >= 0.0001 and <= 100))
        {
            throw new CoatScanException(
                ErrorReason.ValueOutOfRange,
                "mm_per_px must be in [0.0001, 100].",
                "mm_per_px",
                new Dictionary<string, string>
                {
                    ["value"] = value.ToString("R", CultureInfo.InvariantCulture),
                    ["minimum"] = "0.0001",
                    ["maximum"] = "100",
                });
        }
    }
}
