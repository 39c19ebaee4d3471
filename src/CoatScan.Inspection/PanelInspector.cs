using CoatScan.Classification;
using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Imaging;
using CoatScan.Imaging.Cards;
using CoatScan.Metrics;
using CoatScan.Metrics.Ratings;
using CoatScan.Metrics.Reflection;
using CoatScan.Metrics.Zones;

namespace CoatScan.Inspection;

/// <summary>The way of a photo: decode, normalize, measure, classify, rank, find. It calls the stages in order.</summary>
public sealed class PanelInspector(
    PhotoNormalizer normalizer,
    VisualClassifier classifier,
    KnowledgeBase knowledge,
    Diagnostician diagnostician,
    Provenance provenance,
    FindingNames names,
    TimeProvider clock)
{
    private const string FactsField = "facts";
    private const string FormPrefix = "form.";

    // More than these nobody tells apart on a photo, and each is stored and sent with the finding.
    private const int MostSpotsDrawn = 500;

    /// <summary>Judges one panel from its photos and what is known about it.</summary>
    /// <param name="photos">Photos of the same panel, at least one.</param>
    /// <param name="facts">What the caller knows.</param>
    /// <param name="zones">Zones whose colors are to be compared; null for none.</param>
    /// <param name="cancellationToken">Stops between and inside the stages.</param>
    /// <exception cref="CoatScanException">A photo, a fact or a zone is refused; the field is named.</exception>
    public Finding InspectPhotos(
        IReadOnlyList<PhotoBytes> photos,
        PanelFacts facts,
        ZonePair? zones,
        CancellationToken cancellationToken) => InspectPhotos(photos, facts, zones, memory: null, cancellationToken);

    /// <summary>The same for a panel that is judged again and again as answers come in.</summary>
    /// <param name="photos">Photos of the same panel, at least one.</param>
    /// <param name="facts">What the caller knows.</param>
    /// <param name="memory">Remembers what the photos gave.</param>
    /// <param name="cancellationToken">Stops between and inside the stages.</param>
    /// <exception cref="CoatScanException">A photo or a fact is refused; the field is named.</exception>
    public Finding InspectPhotos(
        IReadOnlyList<PhotoBytes> photos,
        PanelFacts facts,
        LookMemory memory,
        CancellationToken cancellationToken) => InspectPhotos(photos, facts, zones: null, memory, cancellationToken);

    private Finding InspectPhotos(
        IReadOnlyList<PhotoBytes> photos,
        PanelFacts facts,
        ZonePair? zones,
        LookMemory? memory,
        CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(photos);
        ArgumentNullException.ThrowIfNull(facts);
        ArgumentOutOfRangeException.ThrowIfZero(photos.Count);

        CheckFacts(facts);
        if (zones is not null)
        {
            ZoneCheck.Check(zones, photos.Count);
        }

        var looks = new List<PhotoLook>(photos.Count);
        foreach (var photo in photos)
        {
            cancellationToken.ThrowIfCancellationRequested();
            var own = zones?.First.PhotoIndex == looks.Count ? zones : null;
            looks.Add(memory is null
                ? LookAt(photo, facts, own, cancellationToken)
                : memory.Get(photo, facts, fresh => LookAt(fresh, facts, zones: null, cancellationToken)));
        }

        cancellationToken.ThrowIfCancellationRequested();
        facts = CardReferences.Fill(facts, looks.Select(look => look.Card).OfType<CardReading>());
        var sight = PanelSight.Join(looks, classifier.Info);
        var diagnosis = InspectionTelemetry.Stage("diagnose", () => diagnostician.Diagnose(facts, sight.Evidence));
        return Assemble(facts, diagnosis, sight);
    }

    /// <summary>Ranks causes from evidence and readings alone.</summary>
    /// <param name="facts">What the caller knows.</param>
    /// <exception cref="CoatScanException">A fact is refused; the field is named.</exception>
    public Finding RankCauses(PanelFacts facts)
    {
        ArgumentNullException.ThrowIfNull(facts);
        CheckFacts(facts, alone: true);
        var diagnosis = InspectionTelemetry.Stage("diagnose", () => diagnostician.Diagnose(facts, photo: null));
        return Assemble(facts, diagnosis, PanelSight.None);
    }

    // The card only where lengths are read by it; edges only where waviness was.
    private static IEnumerable<PhotoOutline> Outlines(NormalizedPhoto photo, PanelMeasurements measurements)
    {
        if (photo.Card is { } card)
        {
            yield return new(OutlineKind.ScaleCard, [.. card.Corners.Select(point => Point(point, 0, 1))]);
        }

        bool isRead = measurements.Measurements.Any(one =>
            one.Value is not null && one.Metric.StartsWith("waviness_edge_", StringComparison.Ordinal));
        foreach (var edge in isRead ? measurements.ReflectedEdges : [])
        {
            yield return new(OutlineKind.ReflectedEdge, [.. edge.Select(point => Point(point, 0.5, photo.Planes.OriginalPxPerPx))]);
        }
    }

    private static OutlinePoint Point((double X, double Y) at, double shift, double factor) =>
        new(Math.Round((at.X + shift) * factor, 1), Math.Round((at.Y + shift) * factor, 1));

    private PhotoLook LookAt(
        PhotoBytes photo, PanelFacts facts, ZonePair? zones, CancellationToken cancellationToken)
    {
        using var normalized = InspectionTelemetry.Stage("normalize", () => Normalize(photo, facts.MmPerPx, zones, cancellationToken));
        if (zones is not null)
        {
            ZoneCheck.CheckInside(zones, normalized.Report);
        }

        var measurements = InspectionTelemetry.Stage(
            "measure",
            () => PanelMetrics.Measure(normalized.Planes with { Mirror = MirrorOf(facts) }, normalized.Capture, cancellationToken));
        var reading = InspectionTelemetry.Stage(
            "classify",
            () => classifier.Classify(normalized.Planes, cancellationToken));
        InspectionTelemetry.Photo();
        var tooSmall = FaultSize.Judge(reading, measurements.Spots, normalized.Planes.OriginalPxPerPx);
        var report = normalized.Report with
        {
            DisplayName = photo.DisplayName,
            Spots = [.. measurements.Spots.Take(MostSpotsDrawn).Select(spot => Drawn(spot, normalized.Planes.OriginalPxPerPx))],
            SpotsLeftOut = Math.Max(0, measurements.Spots.Count - MostSpotsDrawn),
            Outlines = [.. Outlines(normalized, measurements)],
            Issues = tooSmall is null ? normalized.Report.Issues : [.. normalized.Report.Issues, tooSmall],
        };
        return new PhotoLook(report, measurements, reading)
        {
            Card = normalized.Card,
            Scale = report.Issues.Any(PhotoGate.WithholdsScale)
                ? null
                : normalized.Planes.Scale?.Enlarged(normalized.Planes.OriginalPxPerPx),
            Zones = zones is null ? [] : ZoneDifference.Measure(normalized.Planes, zones, normalized.Stored ?? StoredZones.Unknown),
        };
    }

    private static MirrorGeometry? MirrorOf(PanelFacts facts) =>
        facts is { ReflectedDistanceMm: { } reflected, CameraDistanceMm: { } camera } ? new MirrorGeometry(reflected, camera) : null;

    // Pixels of the planes have their centers at whole numbers, those of a drawing their corners.
    private static SpotMark Drawn(Mark spot, double originalPxPerPx) => new(
        Math.Round((spot.CenterXPx + 0.5) * originalPxPerPx, 1),
        Math.Round((spot.CenterYPx + 0.5) * originalPxPerPx, 1),
        Math.Round(spot.DiameterPx * originalPxPerPx, 1));

    private NormalizedPhoto Normalize(PhotoBytes photo, double? mmPerPx, ZonePair? zones, CancellationToken cancellationToken)
    {
        try
        {
            return normalizer.Normalize(photo.Read(), mmPerPx, zones, cancellationToken);
        }
        catch (CoatScanException refusal)
        {
            throw refusal.Under(photo.Field);
        }
    }

    private void CheckFacts(PanelFacts facts, bool alone = false)
    {
        try
        {
            FactsValidator.Validate(facts, knowledge);
            if (alone)
            {
                FactsValidator.RequireEvidence(facts);
            }
        }
        catch (CoatScanException refusal)
        {
            throw refusal.Under(FactsField);
        }
    }

    private Finding Assemble(PanelFacts facts, PanelDiagnosis diagnosis, PanelSight sight)
    {
        var finding = new Finding
        {
            Name = names.Next(),
            CreateTime = clock.GetUtcNow(),
            Verdict = diagnosis.Verdict,
            VerdictReasons = [.. sight.Reasons, .. diagnosis.VerdictReasons],
            Panel = facts.Panel,
            ExternalRef = facts.ExternalRef,
            Photos = sight.Photos,
            VisualClasses = sight.Shares,
            SetCoverage = sight.SetCoverage,
            Measurements = sight.Measurements,
            Ratings = PanelRatings.Rate(
                sight.SpeakingMeasurements, RatedSubjects.Of(sight.Shares, diagnosis.Conditions, knowledge)),
            Evidence = diagnosis.Evidence,
            Conditions = diagnosis.Conditions,
            Beside = diagnosis.Beside,
            Causes = diagnosis.Causes,
            Parties = diagnosis.Parties,
            PartyVerdict = diagnosis.PartyVerdict,
            LookAlikes = diagnosis.LookAlikes,
            NextTests = diagnosis.NextTests,
            Contradictions = diagnosis.Contradictions,
            Remedy = diagnosis.Remedy,
            Timing = diagnosis.Timing,
            Claim = diagnosis.Claim,
            FilmMap = diagnosis.FilmMap,
            FilmBudget = diagnosis.FilmBudget,
            HandOvers = diagnosis.HandOvers,
            Cautions = diagnosis.Cautions,
            CustomerText = diagnosis.CustomerText,
            CareAdvice = diagnosis.CareAdvice,
            Facts = facts,
            Provenance = provenance,
        };
        if (sight.ShowsNoPanel && !HasCallerForm(facts))
        {
            finding = NotAssessable.From(
                finding,
                [.. knowledge.Cautions.Where(one => one.Operations.Count == 0 && one.Evidence is null).Select(one => one.Text)]);
        }

        InspectionTelemetry.Judged(finding.Verdict);
        return finding;
    }

    // Who names what is seen on the film looked at a panel, whatever the photos show.
    private static bool HasCallerForm(PanelFacts facts) =>
        facts.Evidence.Concat(facts.Statements.Select(one => one.Evidence))
            .Any(id => id.StartsWith(FormPrefix, StringComparison.Ordinal));
}
