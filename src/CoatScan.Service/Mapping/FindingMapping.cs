using Google.Protobuf.WellKnownTypes;
using Domain = CoatScan.Findings;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>Finding of the domain -> finding of the contract.</summary>
internal static class FindingMapping
{
    public static Wire.Finding ToWire(Domain.Finding finding)
    {
        var wire = new Wire.Finding
        {
            Name = finding.Name,
            CreateTime = Timestamp.FromDateTimeOffset(finding.CreateTime),
            Verdict = ToWire(finding.Verdict),
            Panel = finding.Panel,
            ExternalRef = finding.ExternalRef,
            PartyVerdict = ToWire(finding.PartyVerdict),
            Remedy = DiagnosisMapping.ToWire(finding.Remedy),
            Timing = DiagnosisMapping.ToWire(finding.Timing),
            CustomerText = finding.CustomerText,
            Provenance = ToWire(finding.Provenance),
            Claim = DiagnosisMapping.ToWire(finding.Claim),
        };
        if (finding.FilmBudget is { } budget)
        {
            wire.FilmBudget = DiagnosisMapping.ToWire(budget);
        }

        if (finding.SetCoverage is { } coverage)
        {
            wire.SetCoverage = coverage;
        }

        wire.VerdictReasons.Add(finding.VerdictReasons);
        wire.Photos.Add(finding.Photos.Select(PhotoMapping.ToWire));
        wire.VisualClasses.Add(finding.VisualClasses.Select(PhotoMapping.ToWire));
        wire.Measurements.Add(finding.Measurements.Select(PhotoMapping.ToWire));
        wire.Ratings.Add(finding.Ratings.Select(PhotoMapping.ToWire));
        wire.Evidence.Add(finding.Evidence.Select(DiagnosisMapping.ToWire));
        wire.Conditions.Add(finding.Conditions.Select(DiagnosisMapping.ToWire));
        wire.Causes.Add(finding.Causes.Select(DiagnosisMapping.ToWire));
        wire.Parties.Add(finding.Parties.Select(DiagnosisMapping.ToWire));
        wire.LookAlikes.Add(finding.LookAlikes.Select(DiagnosisMapping.ToWire));
        wire.NextTests.Add(finding.NextTests.Select(DiagnosisMapping.ToWire));
        wire.Contradictions.Add(finding.Contradictions.Select(DiagnosisMapping.ToWire));
        wire.Cautions.Add(finding.Cautions);
        wire.CareAdvice.Add(finding.CareAdvice);
        wire.Beside.Add(finding.Beside.Select(ResourceNames.Condition));
        wire.FilmMap.Add(finding.FilmMap.Select(DiagnosisMapping.ToWire));
        wire.HandOvers.Add(finding.HandOvers.Select(DiagnosisMapping.ToWire));
        return wire;
    }

    public static Wire.Verdict ToWire(Domain.Verdict verdict) => verdict switch
    {
        Domain.Verdict.Conclusive => Wire.Verdict.Conclusive,
        Domain.Verdict.Provisional => Wire.Verdict.Provisional,
        Domain.Verdict.Inconclusive => Wire.Verdict.Inconclusive,
        Domain.Verdict.Sound => Wire.Verdict.Sound,
        Domain.Verdict.NotAssessable => Wire.Verdict.NotAssessable,
        _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, null),
    };

    private static Wire.Provenance ToWire(Domain.Provenance provenance) => new()
    {
        ServiceVersion = provenance.ServiceVersion,
        ModelVersion = provenance.ModelVersion,
        ModelSha256 = provenance.ModelSha256,
        KnowledgeVersion = provenance.KnowledgeVersion,
        KnowledgeSha256 = provenance.KnowledgeSha256,
        MetricSetVersion = provenance.MetricSetVersion,
    };
}
