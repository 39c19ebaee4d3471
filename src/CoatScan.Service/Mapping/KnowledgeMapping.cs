using CoatScan.Diagnosis;
using CoatScan.Findings;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Mapping;

/// <summary>Knowledge base -> contract.</summary>
internal static class KnowledgeMapping
{
    public static Wire.Condition ToWire(ConditionEntry condition, KnowledgeBase knowledge)
    {
        var wire = new Wire.Condition
        {
            Name = ResourceNames.Condition(condition.Id),
            DisplayName = condition.Name,
            AlsoCalled = condition.Also,
            Family = condition.Family,
            Description = condition.PlainWords,
            Rating = condition.Rating,
            Timing = knowledge.Timing[condition.ClaimClass].Text,
            SignsOfAge = condition.PreExistingSigns,
            Look = new Wire.ConditionLook
            {
                LowMm = condition.Look.SizeMm[0],
                HighMm = condition.Look.SizeMm[^1],
                Shape = condition.Look.ShapePattern,
                Relief = condition.Look.Relief,
                Color = condition.Look.ColorGloss,
                Where = condition.Look.Where,
                Light = condition.Look.Light,
            },
        };
        wire.Signs.Add(condition.Signs
            .OrderBy(byClass => byClass.Key is LikelihoodClass.WeakAgainst or LikelihoodClass.ModerateAgainst or LikelihoodClass.RulesOut)
            .ThenBy(byClass => -Math.Abs(Math.Log(knowledge.Ranking.LikelihoodClasses[byClass.Key])))
            .SelectMany(byClass => byClass.Value.Select(id => new Wire.ConditionSign
            {
                Evidence = id,
                Text = knowledge.Evidence[id].Text,
                Weight = UpperSnake.Of(byClass.Key),
            })));
        wire.Finishes.Add(condition.Finishes);
        wire.Sources.Add(condition.Sources.Select(key => knowledge.Sources[key].Text));
        wire.Causes.Add(condition.Causes.Select(cause => new Wire.ConditionCause
        {
            Name = ResourceNames.Cause(condition.Id, cause.Id),
            Text = cause.Text,
            Mechanism = cause.Mechanism,
            Party = cause.Party,
            PartyText = knowledge.Parties[cause.Party].Text,
            Onset = cause.Onset,
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
            Wait = step.Wait ?? "",
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
