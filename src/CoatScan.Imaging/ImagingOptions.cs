using System.Globalization;

namespace CoatScan.Imaging;

/// <summary>What a photo may cost, and the size at which it is measured.</summary>
/// <remarks>The defaults are the service's published limits. <see cref="Validate"/> holds every value to its range.</remarks>
public sealed record ImagingOptions
{
    /// <summary>Largest encoded photo, bytes; [1 KiB, 256 MiB], default 32 MiB.</summary>
    public int MaxPhotoBytes { get; init; } = 32 * 1024 * 1024;

    /// <summary>Most pixels of a photo, millions; [0.01, 80], default 50.</summary>
    /// <remarks>Above 80 the RGB pixels of one photo would pass the decoder's allocation limit.</remarks>
    public double MaxMegapixels { get; init; } = 50;

    /// <summary>Longest side, pixels; [64, 30,000], default 12,000.</summary>
    public int MaxSidePx { get; init; } = 12_000;

    /// <summary>Largest ratio of the longer side to the shorter; [1, 100], default 8.</summary>
    public double MaxAspect { get; init; } = 8;

    /// <summary>Largest color profile, bytes; [128, 16 MiB], default 4 MiB.</summary>
    public int MaxColorProfileBytes { get; init; } = 4 * 1024 * 1024;

    /// <summary>Most scans of a JPEG, each of which costs a pass over the photo; [1, 1,000], default 100.</summary>
    public int MaxJpegScans { get; init; } = 100;

    /// <summary>Largest working size, millions of pixels; [0.01, 16], default 4. Smaller photos are not enlarged.</summary>
    public double WorkingMegapixels { get; init; } = 4;

    /// <summary>Checks every value against its range.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range; the parameter name is the property's.</exception>
    public void Validate()
    {
        Require(MaxPhotoBytes, 1024, 256 * 1024 * 1024, nameof(MaxPhotoBytes));
        Require(MaxMegapixels, 0.01, 80, nameof(MaxMegapixels));
        Require(MaxSidePx, 64, 30_000, nameof(MaxSidePx));
        Require(MaxAspect, 1, 100, nameof(MaxAspect));
        Require(MaxColorProfileBytes, 128, 16 * 1024 * 1024, nameof(MaxColorProfileBytes));
        Require(MaxJpegScans, 1, 1000, nameof(MaxJpegScans));
        Require(WorkingMegapixels, 0.01, 16, nameof(WorkingMegapixels));
    }

    private static void Require(double value, double low, double high, string name)
    {
        // Written so that NaN fails.
        if (!(value >= low && value <= high))
        {
            throw new ArgumentOutOfRangeException(
                name, value, string.Create(CultureInfo.InvariantCulture, $"{name} must be in [{low}, {high}]."));
        }
    }
}
