using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>Where on a photo something shows, in words.</summary>
internal static class Place
{
    private const double WholePhoto = 0.6;

    /// <summary>Words such as "upper left" for the largest regions; empty if the place is unknown.</summary>
    public static string Of(IReadOnlyList<Region> regions, IReadOnlyList<PhotoReport> photos, ReaderWords words)
    {
        ArgumentNullException.ThrowIfNull(regions);
        ArgumentNullException.ThrowIfNull(photos);
        var places = regions
            .OrderByDescending(Area)
            .Select(region => Of(region, photos, words))
            .Where(place => place.Length > 0)
            .Distinct()
            .Take(2)
            .ToList();
        return words.List(places);
    }

    private static string Of(Region region, IReadOnlyList<PhotoReport> photos, ReaderWords words)
    {
        if (region.PhotoIndex < 0 || region.PhotoIndex >= photos.Count)
        {
            return "";
        }

        var photo = photos[region.PhotoIndex];
        if (photo.WidthPx <= 0 || photo.HeightPx <= 0)
        {
            return "";
        }

        if (Area(region) >= WholePhoto * photo.WidthPx * photo.HeightPx)
        {
            return photos.Count > 1 ? words.Fill("most of photo {0}", region.PhotoIndex + 1) : words.Fill("most of the photo");
        }

        var across = Third(region.StartXPx + (double)region.EndXPx, photo.WidthPx, "left", "right");
        var down = Third(region.StartYPx + (double)region.EndYPx, photo.HeightPx, "upper", "lower");
        var place = words.Fill((across, down) switch
        {
            ("", "") => "center",
            ("", _) => $"{down} middle",
            (_, "") => $"{across} side",
            _ => $"{down} {across}",
        });
        return photos.Count > 1 ? words.Fill("{0} of photo {1}", place, region.PhotoIndex + 1) : place;
    }

    // The sum of two edges is twice the center.
    private static string Third(double twiceCenter, int size, string low, string high) => (twiceCenter / 2 / size) switch
    {
        < 1.0 / 3 => low,
        > 2.0 / 3 => high,
        _ => "",
    };

    private static double Area(Region region) =>
        (double)(region.EndXPx - region.StartXPx) * (region.EndYPx - region.StartYPx);
}
