using Google.Protobuf.WellKnownTypes;
using Domain = CoatScan.Findings;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>What was seen and measured -> contract.</summary>
internal static class PhotoMapping
{
    public static Wire.PhotoReport ToWire(Domain.PhotoReport photo)
    {
        var wire = new Wire.PhotoReport
        {
            Sha256 = photo.Sha256,
            DisplayName = photo.DisplayName,
            WidthPx = photo.WidthPx,
            HeightPx = photo.HeightPx,
            PictureHash = StoredPhotoMapping.HashText(photo.PictureHash),
            Scale = new Wire.PhotoScale { Source = UpperSnake.Of(photo.Scale.Source) },
        };
        if (photo.CaptureTime is { } captureTime)
        {
            wire.CaptureTime = captureTime;
        }

        if (photo.Scale.MmPerPx is { } mmPerPx)
        {
            wire.Scale.MmPerPx = mmPerPx;
        }

        if (photo.Scale.TiltDegrees is { } tiltDegrees)
        {
            wire.Scale.TiltDegrees = tiltDegrees;
        }

        if (photo.Scale.Uncertainty is { } uncertainty)
        {
            wire.Scale.Uncertainty = uncertainty;
        }

        wire.Color = ToWire(photo.Color);
        wire.SeenBefore.Add(photo.SeenBefore.Select(ToWire));
        wire.Outlines.Add(photo.Outlines.Select(ToWire));
        wire.Spots.Add(photo.Spots.Select(spot => new Wire.PhotoSpot
        {
            CenterXPx = spot.CenterXPx,
            CenterYPx = spot.CenterYPx,
            DiameterPx = spot.DiameterPx,
        }));
        wire.SpotsLeftOut = photo.SpotsLeftOut;
        wire.Issues.Add(photo.Issues.Select(issue => new Wire.PhotoIssue
        {
            Code = UpperSnake.Of(issue.Code),
            Detail = issue.Detail,
            HowToFix = issue.HowToFix,
            Limits = issue.Limits,
        }));
        return wire;
    }

    private static Wire.PhotoOutline ToWire(Domain.PhotoOutline outline)
    {
        var wire = new Wire.PhotoOutline { Kind = UpperSnake.Of(outline.Kind) };
        wire.Points.Add(outline.Points.Select(point => new Wire.OutlinePoint { XPx = point.XPx, YPx = point.YPx }));
        return wire;
    }

    private static Wire.EarlierPicture ToWire(Domain.EarlierPicture earlier)
    {
        var wire = new Wire.EarlierPicture
        {
            Finding = earlier.Finding,
            CreateTime = Timestamp.FromDateTimeOffset(earlier.CreateTime),
            Sha256 = earlier.Sha256,
            SameBytes = earlier.SameBytes,
            DistanceBits = earlier.DistanceBits,
        };
        if (earlier.CaptureTime is { } captureTime)
        {
            wire.CaptureTime = captureTime;
        }

        return wire;
    }

    private static Wire.ClassCheck ToWire(Domain.ClassCheck check)
    {
        var wire = new Wire.ClassCheck { Basis = UpperSnake.Of(check.Basis), Photos = check.Photos };
        if (check.Recall is { } recall)
        {
            wire.Recall = recall;
        }

        wire.Together.Add(check.Together);
        return wire;
    }

    public static Wire.VisualClassShare ToWire(Domain.VisualClassShare share)
    {
        var wire = new Wire.VisualClassShare
        {
            VisualClass = share.VisualClass,
            Probability = share.Probability,
            AreaFraction = share.AreaFraction,
            Possible = share.Possible,
        };
        if (share.BesideProbability is { } beside)
        {
            wire.BesideProbability = beside;
        }

        if (share.Check is { } check)
        {
            wire.Check = ToWire(check);
        }

        wire.Regions.Add(share.Regions.Select(ToWire));
        return wire;
    }

    public static Wire.Measurement ToWire(Domain.Measurement measurement)
    {
        var wire = new Wire.Measurement
        {
            Metric = measurement.Metric,
            Unit = measurement.Unit,
            PhotoIndex = measurement.PhotoIndex,
        };
        if (measurement.Value is { } value)
        {
            wire.Value = value;
        }

        if (measurement.Uncertainty is { } uncertainty)
        {
            wire.Uncertainty = uncertainty;
        }

        if (measurement.AbsentReason is { } absentReason)
        {
            wire.AbsentReason = absentReason;
        }

        return wire;
    }

    public static Wire.Rating ToWire(Domain.Rating rating) => new()
    {
        Standard = rating.Standard,
        Designation = rating.Designation,
        Basis = rating.Basis,
    };

    private static Wire.PhotoColor ToWire(Domain.PhotoColor color)
    {
        var wire = new Wire.PhotoColor
        {
            Source = UpperSnake.Of(color.Source),
            RedGain = color.RedGain,
            BlueGain = color.BlueGain,
            Reason = color.Reason,
        };
        if (color.Uncertainty is { } uncertainty)
        {
            wire.Uncertainty = uncertainty;
        }

        if (color.PaperLevel is { } paperLevel)
        {
            wire.PaperLevel = paperLevel;
        }

        return wire;
    }

    private static Wire.Region ToWire(Domain.Region region)
    {
        var wire = new Wire.Region
        {
            PhotoIndex = region.PhotoIndex,
            StartXPx = region.StartXPx,
            StartYPx = region.StartYPx,
            EndXPx = region.EndXPx,
            EndYPx = region.EndYPx,
        };
        if (region.WidthMm is { } width)
        {
            wire.WidthMm = width;
        }

        if (region.HeightMm is { } height)
        {
            wire.HeightMm = height;
        }

        return wire;
    }
}
