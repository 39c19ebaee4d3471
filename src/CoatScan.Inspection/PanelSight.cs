using CoatScan.Classification;
using CoatScan.Diagnosis;
using CoatScan.Findings;

namespace CoatScan.Inspection;

/// <summary>What all photos of one panel show together.</summary>
/// <remarks>
/// A fault shows in some photos and not in others, so each fault takes its highest probability over the photos that
/// may speak, <c>sound</c> its lowest; then all are scaled to sum 1. In the same way a fault stays possible if one photo
/// cannot exclude it, <c>sound</c> only if none can. For one photo that changes nothing.
/// </remarks>
internal sealed record PanelSight
{
    private const string NoPanel = "the photo does not seem to show a painted panel";

    /// <summary>No photo was sent.</summary>
    public static PanelSight None { get; } = new();

    /// <summary>The photos, in the order sent.</summary>
    public IReadOnlyList<PhotoReport> Photos { get; private init; } = [];

    /// <summary>Shares of the visual classes, most probable first.</summary>
    public IReadOnlyList<VisualClassShare> Shares { get; private init; } = [];

    /// <summary>Share of rendered panels whose true class is among the possible ones; null without photos.</summary>
    public double? SetCoverage { get; private init; }

    /// <summary>What was measured, photo by photo.</summary>
    public IReadOnlyList<Measurement> Measurements { get; private init; } = [];

    /// <summary>Those of photos that may speak: what a rating may rest on.</summary>
    public IReadOnlyList<Measurement> SpeakingMeasurements { get; private init; } = [];

    /// <summary>What the photos say to the ranking; null if none may speak.</summary>
    public PhotoEvidence? Evidence { get; private init; }

    /// <summary>Whether photos were sent and none of them shows a painted panel.</summary>
    public bool ShowsNoPanel { get; private init; }

    /// <summary>Why a photo was not counted, or is counted with doubt, one sentence each.</summary>
    public IReadOnlyList<string> Reasons { get; private init; } = [];

    /// <summary>Joins what the photos of one panel gave.</summary>
    public static PanelSight Join(IReadOnlyList<PhotoLook> looks, ClassifierInfo classifier)
    {
        var speaking = looks.Where(look => look.CanSpeak).ToList();
        var shares = JoinShares(looks, speaking.Count > 0 ? speaking : looks);
        return new PanelSight
        {
            Photos = [.. looks.Select(look => look.Report)],
            Shares = shares,
            SetCoverage = classifier.SetCoverage,
            Measurements = [.. looks.SelectMany(MeasurementsOf)],
            SpeakingMeasurements = [.. looks.SelectMany((look, i) => look.CanSpeak ? MeasurementsOf(look, i) : [])],
            ShowsNoPanel = looks.All(look => !look.Reading.IsPanel),
            Reasons = [.. looks.SelectMany(ReasonsOf)],
            Evidence = speaking.Count == 0
                ? null
                : new PhotoEvidence
                {
                    Shares = shares,
                    PriorShares = classifier.PriorShares,
                    Lambda = classifier.Lambda,
                    PhotosOf = PhotosOf(looks),
                    PhotoCount = speaking.Select(look => look.Report.Sha256).Distinct(StringComparer.Ordinal).Count(),
                    SoundDoubts = [.. DoubtsOf(looks)],
                    Familiar = speaking.All(look => look.Reading.Familiar),
                },
        };
    }

    // A photo that was counted and could not show that nothing is wrong.
    private static IEnumerable<string> DoubtsOf(IReadOnlyList<PhotoLook> looks) =>
        looks.SelectMany((look, i) => !look.CanSpeak
            ? []
            : look.Report.Issues.Where(PhotoGate.DoubtsSound).Select(issue => $"Photo {i + 1}: {issue.Detail} {issue.Limits}"));

    // A class is said by the photos that give it at least half of what the surest photo gives it.
    private static Dictionary<string, IReadOnlyList<int>> PhotosOf(IReadOnlyList<PhotoLook> looks)
    {
        var said = looks
            .SelectMany((look, i) => look.CanSpeak ? look.Reading.Shares.Select(share => (Share: share, Number: i + 1)) : [])
            .ToLookup(one => one.Share.VisualClass, StringComparer.Ordinal);
        return said.ToDictionary(
            one => one.Key,
            IReadOnlyList<int> (one) =>
            [
                .. one.Where(photo => photo.Share.Probability >= one.Max(p => p.Share.Probability) / 2)
                    .Select(photo => photo.Number),
            ],
            StringComparer.Ordinal);
    }

    private static List<VisualClassShare> JoinShares(IReadOnlyList<PhotoLook> all, IReadOnlyList<PhotoLook> counted)
    {
        var joined = counted
            .SelectMany(look => look.Reading.Shares)
            .GroupBy(share => share.VisualClass, StringComparer.Ordinal)
            .Select(group => group.First() with
            {
                Probability = Extreme(group.Key, group.Select(s => s.Probability)),
                Possible = IsFault(group.Key) ? group.Any(s => s.Possible) : group.All(s => s.Possible),
                BesideProbability = group.Max(s => s.BesideProbability),
            })
            .ToList();
        var sum = joined.Sum(share => share.Probability);
        List<VisualClassShare> ordered =
        [
            .. joined
                .Select(share => WithRegions(share with { Probability = share.Probability / sum }, all))
                .OrderByDescending(share => share.Probability)
                .ThenBy(share => share.VisualClass, StringComparer.Ordinal),
        ];

        // The most probable class is no second one, and cannot be excluded, whatever the single photos said.
        ordered[0] = ordered[0] with { Possible = true, BesideProbability = null };
        return ordered;
    }

    private static bool IsFault(string visualClass) => visualClass is not (VisualClasses.Sound or VisualClasses.NotAPanel);

    private static double Extreme(string visualClass, IEnumerable<double> probabilities) =>
        IsFault(visualClass) ? probabilities.Max() : probabilities.Min();

    private static VisualClassShare WithRegions(VisualClassShare share, IReadOnlyList<PhotoLook> looks)
    {
        var regions = new List<Region>();
        var areaPx = 0.0;
        var photoPx = 0.0;
        for (var i = 0; i < looks.Count; i++)
        {
            var report = looks[i].Report;
            photoPx += (double)report.WidthPx * report.HeightPx;
            var found = looks[i].Reading.Shares.First(s => s.VisualClass == share.VisualClass).Regions;
            areaPx += CoveredPx(found);
            foreach (var region in found)
            {
                var middleX = (region.StartXPx + region.EndXPx) / 2.0;
                var middleY = (region.StartYPx + region.EndYPx) / 2.0;
                regions.Add(region with
                {
                    PhotoIndex = i,
                    WidthMm = looks[i].Scale?.LengthMm(region.StartXPx, middleY, region.EndXPx, middleY),
                    HeightMm = looks[i].Scale?.LengthMm(middleX, region.StartYPx, middleX, region.EndYPx),
                });
            }
        }

        return share with { Regions = regions, AreaFraction = areaPx / photoPx };
    }

    // Regions may overlap; what two of them cover counts once.
    private static double CoveredPx(IReadOnlyList<Region> regions)
    {
        int[] columns = [.. regions.SelectMany(r => new[] { r.StartXPx, r.EndXPx }).Distinct().Order()];
        int[] rows = [.. regions.SelectMany(r => new[] { r.StartYPx, r.EndYPx }).Distinct().Order()];
        var covered = 0.0;
        foreach (var (left, right) in columns.Zip(columns.Skip(1)))
        {
            foreach (var (top, bottom) in rows.Zip(rows.Skip(1)))
            {
                if (regions.Any(r => r.StartXPx <= left && right <= r.EndXPx && r.StartYPx <= top && bottom <= r.EndYPx))
                {
                    covered += (double)(right - left) * (bottom - top);
                }
            }
        }

        return covered;
    }

    private static IEnumerable<Measurement> MeasurementsOf(PhotoLook look, int index) =>
        look.Measurements.Measurements
            .Select(measurement => look.Reading.IsPanel
                ? measurement
                : Measurement.Absent(measurement.Metric, measurement.Unit, NoPanel))
            .Concat(look.Zones)
            .Select(measurement => PhotoGate.Pass(measurement, look.Report.Issues) with { PhotoIndex = index });

    private static IEnumerable<string> ReasonsOf(PhotoLook look, int index)
    {
        if (!look.Reading.IsPanel)
        {
            yield return $"Photo {index + 1} does not seem to show a painted panel and was not counted.";
        }
        else if (!look.CanSpeak)
        {
            var limits = look.Report.Issues.Where(PhotoGate.Silences).Select(issue => issue.Detail.TrimEnd('.'));
            yield return $"Photo {index + 1} is too poor to judge paint by and was not counted: " +
                $"{string.Join("; ", limits)}.";
        }
        else if (look.Reading.Doubt is { } doubt)
        {
            yield return $"Photo {index + 1}: {doubt}";
        }
    }
}
