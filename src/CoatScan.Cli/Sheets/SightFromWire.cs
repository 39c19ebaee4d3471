using Domain = CoatScan.Findings;
using Wire = CoatScan.V1;

namespace CoatScan.Cli.Sheets;

/// <summary>What was seen and measured: contract -> domain.</summary>
internal static class SightFromWire
{
    public static Domain.PhotoReport Of(Wire.PhotoReport wire) => new()
    {
        Sha256 = wire.Sha256,
        DisplayName = wire.DisplayName,
        WidthPx = wire.WidthPx,
        HeightPx = wire.HeightPx,
        CaptureTime = wire.HasCaptureTime ? wire.CaptureTime : null,
        SeenBefore = [.. wire.SeenBefore.Select(one => new Domain.EarlierPicture(
            one.Finding,
            one.CreateTime?.ToDateTimeOffset() ?? DateTimeOffset.UnixEpoch,
            one.Sha256,
            one.SameBytes,
            one.DistanceBits,
            one.HasCaptureTime ? one.CaptureTime : null))],
        // A line of a kind that this version does not know is not drawn: its caption would name another one.
        Outlines = [.. wire.Outlines
            .Where(one => Enum.TryParse<Domain.OutlineKind>(one.Kind.Replace("_", "", StringComparison.Ordinal), ignoreCase: true, out _))
            .Select(one => new Domain.PhotoOutline(
                FindingFromWire.Open<Domain.OutlineKind>(one.Kind), [.. one.Points.Select(point => new Domain.OutlinePoint(point.XPx, point.YPx))]))],
        Spots = [.. wire.Spots.Select(one => new Domain.SpotMark(one.CenterXPx, one.CenterYPx, one.DiameterPx))],
        SpotsLeftOut = wire.SpotsLeftOut,
        // An issue that this version does not know has words of its own, but no picture in the guide.
        Issues = [.. wire.Issues
            .Where(one => Enum.TryParse<Domain.PhotoIssueCode>(one.Code.Replace("_", "", StringComparison.Ordinal), ignoreCase: true, out _))
            .Select(one => new Domain.PhotoIssue(FindingFromWire.Open<Domain.PhotoIssueCode>(one.Code), one.Detail, one.HowToFix, one.Limits))],
        Scale = wire.Scale is { } scale
            ? new(FindingFromWire.Open<Domain.ScaleSource>(scale.Source), scale.HasMmPerPx ? scale.MmPerPx : null)
            {
                TiltDegrees = scale.HasTiltDegrees ? scale.TiltDegrees : null,
                Uncertainty = scale.HasUncertainty ? scale.Uncertainty : null,
            }
            : Domain.PhotoScale.Unknown,
        Color = wire.Color is { } color
            ? new(FindingFromWire.Open<Domain.WhiteBalanceSource>(color.Source), color.RedGain, color.BlueGain, color.Reason)
            {
                Uncertainty = color.HasUncertainty ? color.Uncertainty : null,
                PaperLevel = color.HasPaperLevel ? color.PaperLevel : null,
            }
            : Domain.PhotoColor.Unknown,
    };

    public static Domain.VisualClassShare Of(Wire.VisualClassShare wire) => new()
    {
        VisualClass = wire.VisualClass,
        Probability = wire.Probability,
        Regions = [.. wire.Regions.Select(one => new Domain.Region(
            one.PhotoIndex,
            one.StartXPx,
            one.StartYPx,
            one.EndXPx,
            one.EndYPx,
            one.HasWidthMm ? one.WidthMm : null,
            one.HasHeightMm ? one.HeightMm : null))],
        AreaFraction = wire.AreaFraction,
        Possible = wire.Possible,
        BesideProbability = wire.HasBesideProbability ? wire.BesideProbability : null,
        Check = wire.Check is { } check
            ? new()
            {
                Basis = FindingFromWire.Open<Domain.ClassCheckBasis>(check.Basis),
                Photos = check.Photos,
                Recall = check.HasRecall ? check.Recall : null,
                Together = [.. check.Together],
            }
            : null,
    };

    public static Domain.Measurement Of(Wire.Measurement wire) => (wire.HasValue
        ? Domain.Measurement.Of(wire.Metric, wire.Value, wire.Unit, wire.HasUncertainty ? wire.Uncertainty : null)
        : Domain.Measurement.Absent(wire.Metric, wire.Unit, wire.AbsentReason)) with
    { PhotoIndex = wire.PhotoIndex };
}
