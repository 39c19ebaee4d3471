using CoatScan.Findings;

namespace CoatScan.Metrics.Ratings;

/// <summary>Ratings by published standards, each computed from a measured area or size, never from another rating.</summary>
/// <remarks>
/// <para>A subject is rated on the photo that shows most of it, and the reference area is what that photo shows. Nothing is rated that was not measured,
/// or of which nothing was found; a class that would need millimeters needs a scale.</para>
/// <para>No amount is rated where the standard has pictures without published areas: ISO 4628-1, -2 and -4 (quantity), and no depth.</para>
/// </remarks>
public static class PanelRatings
{
    /// <summary>Rates the subjects that are plausibly on the panel.</summary>
    /// <param name="measurements">Measurements of the photos that may speak.</param>
    /// <param name="subjects">What is there by what is seen and known; the numbers do not say that.</param>
    public static IReadOnlyList<Rating> Rate(IReadOnlyList<Measurement> measurements, IReadOnlySet<RatingSubject> subjects)
    {
        ArgumentNullException.ThrowIfNull(measurements);
        ArgumentNullException.ThrowIfNull(subjects);
        var photos = measurements.Select(one => one.PhotoIndex).Distinct().Order()
            .Select(index => new MeasuredPhoto(measurements, index)).ToList();
        var ratings = new List<Rating>();
        foreach (var subject in Enum.GetValues<RatingSubject>().Where(subjects.Contains))
        {
            if (Worst(photos, MetricOf(subject)) is { } photo)
            {
                Add(subject, photo, ratings);
            }
        }

        return ratings;
    }

    private static string MetricOf(RatingSubject subject) => subject switch
    {
        RatingSubject.Rust => RustRatings.Area,
        RatingSubject.FilmLoss => LossRatings.Area,
        RatingSubject.Cracks => SizeRatings.CrackWidth,
        _ => SizeRatings.SpotSize,
    };

    private static void Add(RatingSubject subject, MeasuredPhoto photo, List<Rating> ratings)
    {
        switch (subject)
        {
            case RatingSubject.Rust:
                RustRatings.Add(photo, ratings);
                break;
            case RatingSubject.FilmLoss:
                LossRatings.Add(photo, ratings);
                break;
            case RatingSubject.Cracks:
                ratings.Add(SizeRatings.OfCracks(photo));
                break;
            case RatingSubject.Blisters:
                ratings.Add(SizeRatings.OfBlisters(photo));
                break;
            default:
                ratings.Add(SizeRatings.OfSpots(photo));
                break;
        }
    }

    private static MeasuredPhoto? Worst(List<MeasuredPhoto> photos, string metric)
    {
        var (worst, most) = ((MeasuredPhoto?)null, 0.0);
        foreach (var photo in photos)
        {
            if (photo[metric]?.Value is { } value && value > most)
            {
                (worst, most) = (photo, value);
            }
        }

        return worst;
    }
}
