namespace CoatScan.Diagnosis;

/// <summary>Checks what a schema cannot: that every id which is named exists, and that numbers fit together.</summary>
internal static class KnowledgeIntegrity
{
    /// <summary>Refuses a knowledge base with a loose end.</summary>
    /// <exception cref="InvalidDataException">One sentence that names the file and the id.</exception>
    public static void Check(KnowledgeBase knowledge, Dictionary<string, Dictionary<string, double>> seenUnder)
    {
        foreach (ConditionEntry condition in knowledge.Conditions)
        {
            CheckCondition(knowledge, condition);
        }

        foreach ((string id, TestEntry test) in knowledge.Tests)
        {
            Known(knowledge.Evidence, test.Outcomes, $"tests.yaml, {id}");
            Known(knowledge.Tests, test.Look?.BesideTest ?? [], $"tests.yaml, {id}");
            Require(test.Look is not null || test.Outcomes.Count > 0, $"tests.yaml, {id}: it has no outcomes and is no look.");
        }

        foreach (DeciderEntry decider in knowledge.Deciders)
        {
            string where = $"deciders.yaml, {decider.First} and {decider.Second}";
            Known(knowledge.ById, [decider.First, decider.Second], where);
            Known(knowledge.Evidence, decider.AnyOf, where);
        }

        foreach (Findings.Contradiction rule in knowledge.Contradictions)
        {
            Known(knowledge.Evidence, [rule.First, rule.Second], "contradictions.yaml");
        }

        foreach ((string claimClass, TimingRule rule) in knowledge.Timing)
        {
            Known(knowledge.Evidence, rule.Fits.Keys.Concat(rule.DoesNotFit.Keys), $"timing.yaml, {claimClass}");
        }

        foreach (GeneralCaution caution in knowledge.Cautions)
        {
            Known(knowledge.Operations, caution.Operations, "cautions.yaml");
            Known(knowledge.Evidence, caution.Evidence ?? [], "cautions.yaml");
            Known(knowledge.Sources, caution.Sources, "cautions.yaml");
        }

        CheckRules(knowledge);
        foreach (CauseHint hint in knowledge.Ranking.CauseHints)
        {
            string where = $"ranking.yaml, cause_hints, {hint.Evidence}";
            Known(knowledge.Evidence, [hint.Evidence], "ranking.yaml, cause_hints");
            Known(knowledge.Parties, hint.Parties?.Keys ?? [], where);
            string? family = hint.Families?.FirstOrDefault(f => knowledge.Conditions.All(c => c.Family != f));
            Require(family is null, $"{where}: no condition is of the family '{family}'.");
            string? onset = hint.Onsets?.Keys.FirstOrDefault(o => knowledge.Conditions.All(c => c.Causes.All(k => k.Onset != o)));
            Require(onset is null, $"{where}: no cause has the onset '{onset}'.");
        }

        Known(knowledge.Sources, knowledge.Care.Sources, "care.yaml");
        Known(knowledge.Evidence, ReadingEvidence.Ids, "evidence.yaml (needed by readings)");
        Require(
            knowledge.Ranking.GroupCaps.Low <= 1 && knowledge.Ranking.GroupCaps.High >= 1,
            "ranking.yaml: the group caps must enclose 1.");
        CheckVisualClasses(knowledge, seenUnder);
    }

    private static void CheckRules(KnowledgeBase knowledge)
    {
        foreach (FilmBand band in knowledge.Film.Budget)
        {
            Known(knowledge.Operations, band.Forbids, "film.yaml, budget");
        }

        Require(
            knowledge.Film.Budget.Zip(knowledge.Film.Budget.Skip(1)).All(p => p.First.UpToUm < p.Second.UpToUm),
            "film.yaml: the bands of the budget must rise.");
        Known(knowledge.Sources, knowledge.Film.Sources, "film.yaml");
        foreach (FinishRule rule in knowledge.Finishes)
        {
            Known(knowledge.Evidence, [rule.Evidence], "finishes.yaml");
            Known(knowledge.Operations, rule.Forbids, $"finishes.yaml, {rule.Evidence}");
            Known(knowledge.Sources, rule.Sources, $"finishes.yaml, {rule.Evidence}");
        }

        foreach (WaitRule rule in knowledge.Waits)
        {
            Known(knowledge.Operations, rule.Operations, "waits.yaml");
            Known(knowledge.Evidence, [.. rule.WhenAny ?? [], .. rule.UnlessAny ?? []], "waits.yaml");
            Require(rule.BetterDays >= rule.NotBeforeDays, $"waits.yaml: better comes before not before in '{rule.Text}'.");
        }

        Known(knowledge.Sources, knowledge.Claim.Sources, "claim.yaml");
        SprayRules spray = knowledge.SprayDay;
        Known(knowledge.Sources, spray.Sources, "spray-day.yaml");
        Require(
            spray.Bands.All(b => spray.Speeds.Contains(b.Speed)),
            "spray-day.yaml: a band names a speed that is not among the speeds.");
        Require(
            spray.Bands.Zip(spray.Bands.Skip(1)).All(p => p.First.UpToC < p.Second.UpToC) && spray.Bands[^1].UpToC >= 90,
            "spray-day.yaml: the bands must rise and reach 90 C.");
        foreach (HandOverRule rule in knowledge.HandOvers)
        {
            Known(knowledge.Operations, rule.Operations, $"handovers.yaml, {rule.Id}");
            Known(knowledge.ById, rule.Conditions ?? [], $"handovers.yaml, {rule.Id}");
            Known(knowledge.Evidence, rule.Evidence ?? [], $"handovers.yaml, {rule.Id}");
            Known(knowledge.Sources, rule.Sources, $"handovers.yaml, {rule.Id}");
        }
    }

    private static void CheckCondition(KnowledgeBase knowledge, ConditionEntry condition)
    {
        string file = $"conditions/{condition.Id}.yaml";
        CheckSigns(knowledge, condition.Signs, file + ", signs");
        Known(knowledge.ById, condition.LookAlikes.Select(l => l.Id), file + ", look_alikes");
        Known(knowledge.Operations, condition.Ladder.Select(s => s.Operation), file + ", ladder");
        Known(knowledge.Operations, condition.MustNot.Select(m => m.Operation), file + ", must_not");
        Known(knowledge.Sources, condition.Sources, file + ", sources");
        Known(knowledge.Timing, [condition.ClaimClass], file + ", claim_class");
        Require(
            knowledge.Operations[condition.Ladder[0].Operation].SpendsFilm is false,
            $"{file}: the first step of the ladder spends film.");
        var causes = new HashSet<string>(StringComparer.Ordinal);
        foreach (CauseEntry cause in condition.Causes)
        {
            Require(causes.Add(cause.Id), $"{file}: the cause '{cause.Id}' stands twice.");
            Known(knowledge.Parties, [cause.Party], $"{file}, cause {cause.Id}");
            CheckSigns(knowledge, cause.Evidence, $"{file}, cause {cause.Id}");
        }

        var never = condition.MustNot.Where(m => m.Scope == "always").Select(m => m.Operation).ToHashSet();
        string? both = condition.Ladder.Select(s => s.Operation).FirstOrDefault(never.Contains);
        Require(both is null, $"{file}: '{both}' is a step and forbidden always.");
    }

    private static void CheckSigns(
        KnowledgeBase knowledge,
        IReadOnlyDictionary<LikelihoodClass, IReadOnlyList<string>> signs,
        string where)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (string id in signs.Values.SelectMany(ids => ids))
        {
            Known(knowledge.Evidence, [id], where);
            Require(seen.Add(id), $"{where}: '{id}' stands in two classes.");
        }
    }

    private static void CheckVisualClasses(
        KnowledgeBase knowledge,
        Dictionary<string, Dictionary<string, double>> seenUnder)
    {
        const string File = "visual-classes.yaml";
        foreach (VisualClassEntry entry in knowledge.VisualClasses.Values)
        {
            Known(knowledge.Evidence, entry.Signs, $"{File}, {entry.Id}");
        }

        Known(knowledge.ById, seenUnder.Keys, $"{File}, table");
        foreach (string condition in knowledge.ById.Keys)
        {
            Require(seenUnder.ContainsKey(condition), $"{File}: the table has no row for '{condition}'.");
            Dictionary<string, double> row = seenUnder[condition];
            Known(knowledge.VisualClasses, row.Keys, $"{File}, row {condition}");
            Require(
                row.Keys.All(c => knowledge.VisualClasses[c].Panel),
                $"{File}: row {condition} names a class that is not seen on a panel.");
            Require(row.Values.Sum() < 0.995, $"{File}: row {condition} leaves nothing to the classes it does not name.");
        }
    }

    private static void Known<T>(IReadOnlyDictionary<string, T> all, IEnumerable<string> ids, string where)
    {
        foreach (string id in ids)
        {
            // The hint costs a comparison with every known id, so it is worked out only for an unknown one.
            if (!all.ContainsKey(id))
            {
                throw new InvalidDataException($"Knowledge file {where}: '{id}' is unknown.{Nearest.Hint(id, all.Keys)}");
            }
        }
    }

    private static void Require(bool holds, string otherwise)
    {
        if (!holds)
        {
            throw new InvalidDataException("Knowledge file " + otherwise);
        }
    }
}
