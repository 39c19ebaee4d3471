using CoatScan.Diagnosis;
using CoatScan.Findings;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>Knowledge base -> contract.</summary>
internal static class KnowledgeMapping
{
    public static Wire.Condition ToWire(ConditionEntry condition)
    {
        var wire = new Wire.Condition
        {
            Name = ResourceNames.Condition(condition.Id),
            DisplayName = condition.Name,
            AlsoCalled = condition.Also,
            Family = condition.Family,
            Description = condition.PlainWords,
            Rating = condition.Rating,
        };
        wire.Causes.Add(condition.Causes.Select(cause => new Wire.ConditionCause
        {
            Name = ResourceNames.Cause(condition.Id, cause.Id),
            Text = cause.Text,
            Mechanism = cause.Mechanism,
            Party = cause.Party,
        }));
        wire.LookAlikes.Add(condition.LookAlikes.Select(hint => new Wire.ConditionLookAlike
        {
            Condition = ResourceNames.Condition(hint.Id),
            Tell = hint.Tell,
        }));
        wire.Tests.Add(condition.HowToTell);
        wire.Steps.Add(condition.Ladder.Select(step => new Wire.ConditionStep
        {
            Operation = step.Operation,
            Action = step.Action,
            StopIf = step.StopIf,
        }));
        wire.MustNot.Add(condition.MustNot.Select(item => new Wire.ConditionMustNot
        {
            Operation = item.Operation,
            Why = item.Why,
            Scope = item.Scope,
        }));
        wire.Cautions.Add(condition.Cautions);
        wire.Prevention.Add(condition.Prevention);
        wire.SourceKeys.Add(condition.Sources);
        return wire;
    }

    public static Wire.EvidenceTerm ToWire(EvidenceTerm term) => new()
    {
        Id = term.Id,
        Group = term.Group,
        Text = term.Text,
    };

    /// <summary>The terms of one group, or all.</summary>
    /// <exception cref="CoatScanException">FIELD_INVALID: there is no such group.</exception>
    public static IReadOnlyList<EvidenceTerm> OfGroup(KnowledgeBase knowledge, string group)
    {
        if (group.Length == 0)
        {
            return [.. knowledge.Evidence.Values];
        }

        List<EvidenceTerm> terms = [.. knowledge.Evidence.Values.Where(term => term.Group == group)];
        if (terms.Count == 0)
        {
            var groups = string.Join(", ", knowledge.Evidence.Values.Select(term => term.Group).Distinct());
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"group must be one of {groups}.",
                "group",
                new Dictionary<string, string> { ["allowed"] = groups });
        }

        return terms;
    }
}
