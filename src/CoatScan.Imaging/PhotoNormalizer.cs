using System.Globalization;
using System.Security.Cryptography;
using CoatScan.Findings;
using CoatScan.Imaging.Cards;
using CoatScan.Imaging.Normalizing;
using CoatScan.Metrics;
using CoatScan.Metrics.Color;
using CoatScan.Metrics.Quality;

namespace CoatScan.Imaging;

/// <summary>From received bytes to a panel that can be measured.</summary>
/// <remarks>
/// <para>Decodes, turns as EXIF says, makes the values linear, reduces by averaging area, brings wide-gamut colors to sRGB, takes out
/// the color of the light if highlights show it (<see cref="WhiteBalance.Reason"/> tells), looks for a scale card, and judges the photo
/// as a photo.</para>
/// <para>Deterministic: equal bytes, scale and options give equal results. Thread safe if the decoder is.</para>
/// </remarks>
public sealed class PhotoNormalizer
{
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
    public NormalizedPhoto Normalize(ReadOnlyMemory<byte> bytes, double? mmPerPx, CancellationToken cancellationToken)
    {
        RequireScale(mmPerPx);
        ReducedPhoto reduced;
        string colorSpace;
        double outOfGamut;
        PhotoReport report;
        CardReading? card;
        using (DecodedPhoto decoded = _decoder.Decode(bytes, cancellationToken))
        {
            reduced = AreaReducer.Reduce(decoded, _options.WorkingMegapixels * 1e6, cancellationToken);
            outOfGamut = GamutMapper.Apply(reduced, decoded.ColorSpace.ToSrgb);
            colorSpace = decoded.ColorSpaceName;
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
        WhiteBalance balance = HighlightWhiteBalance.Estimate(reduced);
        HighlightWhiteBalance.Apply(reduced, balance);
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
            OriginalPxPerPx = reduced.OriginalPxPerPx,
        };
        var capture = CaptureReading.Of(planes);
        report = report with { Issues = PhotoQuality.Judge(capture, report, card) };
        return new NormalizedPhoto(planes, capture, report, new ColorTreatment(colorSpace, outOfGamut, balance)) { Card = card };
    }

    private static PhotoScale ScaleOf(double? callerMmPerPx, CardReading? card) => (callerMmPerPx, card) switch
    {
        ({ } stated, _) => new PhotoScale(ScaleSource.Caller, stated) { TiltDegrees = card?.TiltDegrees },
        (null, { } found) => new PhotoScale(ScaleSource.Card, found.MmPerPx) { TiltDegrees = found.TiltDegrees },
        _ => PhotoScale.Unknown,
    };

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
