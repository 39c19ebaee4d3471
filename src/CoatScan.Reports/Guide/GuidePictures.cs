using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>The photos to take of one fault, in the order in which they are taken.</summary>
public enum GuidePicture
{
    /// <summary>The whole panel with its neighbors.</summary>
    Context,

    /// <summary>The fault with a scale, square on.</summary>
    Middle,

    /// <summary>Very near, with a scale.</summary>
    Close,

    /// <summary>Light from the side.</summary>
    Raking,

    /// <summary>A straight edge mirrored in the panel.</summary>
    Reflection,

    /// <summary>Color in even light.</summary>
    Color,
}

/// <summary>Which picture of the guide shows how to mend what is wrong with a photo.</summary>
public static class GuidePictures
{
    /// <summary>The picture for a retake.</summary>
    public static GuidePicture For(PhotoIssueCode code) => code switch
    {
        PhotoIssueCode.NoScale or PhotoIssueCode.ScaleConflict or PhotoIssueCode.Oblique or PhotoIssueCode.TooOblique =>
            GuidePicture.Middle,
        PhotoIssueCode.Blurred or PhotoIssueCode.LowResolution or PhotoIssueCode.FaultTooSmall => GuidePicture.Close,
        PhotoIssueCode.Glare or PhotoIssueCode.TooDark or PhotoIssueCode.Noisy => GuidePicture.Color,
        _ => GuidePicture.Context,
    };

    /// <summary>The name to lead to inside the guide.</summary>
    public static string Anchor(GuidePicture picture) => picture switch
    {
        GuidePicture.Context => "context",
        GuidePicture.Middle => "middle",
        GuidePicture.Close => "close",
        GuidePicture.Raking => "raking",
        GuidePicture.Reflection => "reflection",
        GuidePicture.Color => "color",
        _ => throw new ArgumentOutOfRangeException(nameof(picture), picture, null),
    };
}
