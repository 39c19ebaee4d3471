using System.Globalization;
using Google.Protobuf.Collections;
using Domain = CoatScan.Findings;
using Wire = CoatScan.V1;

namespace CoatScan.Cli.Sheets;

/// <summary>Finding of the contract -> finding of the domain, which the sheets are written from.</summary>
/// <remarks>Values of open lists that this version does not know become the value that says least.</remarks>
internal static class FindingFromWire
{
    /// <summary>The finding.</summary>
    public static Domain.Finding Of(Wire.Finding wire)
    {
        ArgumentNullException.ThrowIfNull(wire);
        return new()
        {
            Name = wire.Name,
            CreateTime = wire.CreateTime?.ToDateTimeOffset() ?? DateTimeOffset.UnixEpoch,
            Verdict = Verdict(wire.Verdict),
            VerdictReasons = [.. wire.VerdictReasons],
            Panel = wire.Panel,
            ExternalRef = wire.ExternalRef,
            Photos = [.. wire.Photos.Select(SightFromWire.Of)],
            VisualClasses = [.. wire.VisualClasses.Select(SightFromWire.Of)],
            SetCoverage = wire.HasSetCoverage ? wire.SetCoverage : null,
            Measurements = [.. wire.Measurements.Select(SightFromWire.Of)],
            Ratings = [.. wire.Ratings.Select(one => new Domain.Rating(one.Standard, one.Designation, one.Basis))],
            Evidence = [.. wire.Evidence.Select(one => new Domain.EvidenceItem(one.Id, Open<Domain.EvidenceOrigin>(one.Origin), one.Text)
            {
                SaidBy = [.. one.SaidBy],
            })],
            Conditions = [.. wire.Conditions.Select(one => new Domain.ConditionShare(Id(one.Condition), one.Probability, Weights(one.Evidence))
            {
                DisplayName = one.DisplayName,
            })],
            Beside = [.. wire.Beside.Select(Id)],
            Causes = [.. wire.Causes.Select(Cause)],
            Parties = [.. wire.Parties.Select(one => new Domain.PartyShare(one.Party, one.Probability, one.Text)
            {
                For = [.. one.SpeaksFor],
                Against = [.. one.SpeaksAgainst],
            })],
            PartyVerdict = Verdict(wire.PartyVerdict),
            LookAlikes = [.. wire.LookAlikes.Select(one =>
                new Domain.LookAlike(Id(one.Condition), Id(one.Other), [.. one.DecidingTests], one.Tell))],
            NextTests = [.. wire.NextTests.Select(Test)],
            Contradictions = [.. wire.Contradictions.Select(one => new Domain.Contradiction(one.First, one.Second, one.Doubts, one.Text)
            {
                Consequence = one.Consequence,
            })],
            Remedy = Remedy(wire.Remedy),
            Timing = wire.Timing is { } timing
                ? new(Open<Domain.TimingClass>(timing.Class), [.. timing.Fits], [.. timing.DoesNotFit])
                : Domain.Timing.CannotTell,
            Claim = wire.Claim is { } claim
                ? new()
                {
                    Dates = Open<Domain.DatesFit>(claim.Dates),
                    DatesText = claim.DatesText,
                    Questions = [.. claim.Questions],
                    SignsOfAge = claim.SignsOfAge,
                }
                : Domain.ClaimSheet.None,
            FilmMap = [.. wire.FilmMap.Select(one => new Domain.FilmMapEntry(
                one.Panel, one.Count, one.LowUm, one.MedianUm, one.HighUm, Open<Domain.FilmClass>(one.FilmClass), one.Uneven, one.Text))],
            FilmBudget = wire.FilmBudget is { } budget
                ? new(budget.LowUm, budget.HasAllowanceUm ? budget.AllowanceUm : null, budget.HasFaultDepthUm ? budget.FaultDepthUm : null, budget.Text)
                : null,
            HandOvers = [.. wire.HandOvers.Select(one => new Domain.HandOver(one.Matter, one.Why, one.To))],
            Cautions = [.. wire.Cautions],
            CustomerText = wire.CustomerText,
            CareAdvice = [.. wire.CareAdvice],
            Provenance = wire.Provenance is { } from
                ? new(from.ServiceVersion, from.ModelVersion, from.ModelSha256, from.KnowledgeVersion, from.MetricSetVersion)
                {
                    KnowledgeSha256 = from.KnowledgeSha256,
                }
                : new("", "", "", "", ""),
        };
    }

    /// <summary>A value of an open list, by its name in upper snake case; the first of the list if it is not known.</summary>
    public static T Open<T>(string name)
        where T : struct, Enum =>
        Enum.TryParse(name.Replace("_", "", StringComparison.Ordinal), ignoreCase: true, out T value) && Enum.IsDefined(value) ? value : default;

    private static Domain.Verdict Verdict(Wire.Verdict verdict) => verdict switch
    {
        Wire.Verdict.Conclusive => Domain.Verdict.Conclusive,
        Wire.Verdict.Provisional => Domain.Verdict.Provisional,
        Wire.Verdict.Sound => Domain.Verdict.Sound,
        Wire.Verdict.NotAssessable => Domain.Verdict.NotAssessable,
        _ => Domain.Verdict.Inconclusive,
    };

    private static Domain.CauseShare Cause(Wire.CauseShare one) => new(
        Id(one.Condition), one.Cause[(one.Cause.IndexOf('.', StringComparison.Ordinal) + 1)..], one.Probability, one.Party, Weights(one.Evidence))
    {
        Text = one.Text,
        Mechanism = one.Mechanism,
    };

    private static Domain.NextTest Test(Wire.NextTest one) =>
        new(one.Test, one.HasGainBits ? one.GainBits : null, one.Minutes, one.Invasiveness, one.Reason)
        {
            DisplayName = one.DisplayName,
            How = one.How,
            Caution = one.Caution,
            Consent = one.Consent,
        };

    private static Domain.Remedy Remedy(Wire.Remedy? wire) => wire is null
        ? Domain.Remedy.None
        : new(
            [.. wire.Steps.Select(one => new Domain.RemedyStep(
                one.Operation,
                one.Action,
                one.StopIf,
                one.HasWait ? one.Wait : null,
                one.Hours is { } hours ? new(hours.Low, hours.High) : null)
            {
                HoursFor = one.HoursFor,
                Materials = one.Materials,
                Condition = Id(one.Condition),
                NotBefore = Day(one.NotBefore),
                BetterFrom = Day(one.BetterFrom),
                SpendsUm = one.SpendsUm is { } film ? new(film.Low, film.High) : null,
            })],
            [.. wire.MustNot.Select(one => new Domain.MustNot(one.Operation, one.Why, one.Scope))]);

    private static Domain.EvidenceWeight[] Weights(RepeatedField<Wire.EvidenceWeight> wire) =>
        [.. wire.Select(one => new Domain.EvidenceWeight(one.Id, one.WeightLog, one.Reason))];

    private static DateOnly? Day(string iso) =>
        DateOnly.TryParseExact(iso, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;

    private static string Id(string name) => name[(name.LastIndexOf('/') + 1)..];
}
