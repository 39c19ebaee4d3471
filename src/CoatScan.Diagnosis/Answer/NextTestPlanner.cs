using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Chooses what to test next: what decides an open pair, then what tells most for its cost, then missing looks.</summary>
internal sealed class NextTestPlanner(KnowledgeBase knowledge)
{
    /// <summary>Plans the tests of a condition that is not decided.</summary>
    public IReadOnlyList<NextTest> ForCondition(
        IReadOnlyList<Scored> ranked,
        IReadOnlyList<OpenPair> open,
        IReadOnlyList<Contradiction> contradictions,
        EvidenceSet evidence)
    {
        List<Candidate> candidates = [.. Candidates(ranked, evidence)];
        Dictionary<string, Candidate> byTest = candidates.ToDictionary(c => c.Test.Id, StringComparer.Ordinal);
        var planned = new List<NextTest>();
        var named = new HashSet<string>(StringComparer.Ordinal);
        int deciding = 0;
        foreach (OpenPair pair in open)
        {
            foreach (Candidate candidate in DecidingTests(pair, evidence)
                .Select(t => byTest.GetValueOrDefault(t.Id) ?? Value(t, ranked))
                .OrderByDescending(c => c.Worth)
                .ThenBy(c => c.Test.Id, StringComparer.Ordinal))
            {
                Name(candidate, $"tells {Words(pair.Leading)} from {Words(pair.Other)}: {pair.Decider.Reading}");
            }

            deciding = pair.Leading == ranked[0].Id ? planned.Count : deciding;
        }

        foreach (Candidate candidate in candidates
            .Where(c => c.GainBits >= knowledge.Ranking.NextTests.MinGainBits)
            .OrderByDescending(c => c.Worth)
            .ThenBy(c => c.Test.Id, StringComparer.Ordinal))
        {
            Name(candidate, "tells most about the leading conditions for its cost");
        }

        HashSet<string> beside = candidates.Select(c => c.Test.Id).ToHashSet(StringComparer.Ordinal);
        NextTest[] looks = [.. Looks(evidence, beside, ranked[0].Id)];
        NextTest[] first = [.. Doubted(contradictions, evidence), .. planned.Take(deciding)];
        NextTest[] telling = [.. planned.Take(knowledge.Ranking.NextTests.MaxTests).Skip(deciding)];

        // Until somebody has seen the form at the car, a better look is worth more than a test of one guess.
        IEnumerable<NextTest> all = evidence.HasCallerForm
            ? [.. first, .. telling, .. looks]
            : [.. first, .. looks, .. telling];
        return [.. all.DistinctBy(t => t.Test)];

        void Name(Candidate candidate, string reason)
        {
            if (named.Add(candidate.Test.Id))
            {
                planned.Add(ToNext(candidate.Test, candidate.GainBits, reason));
            }
        }
    }

    /// <summary>Plans the tests of a condition that is decided while the party is open.</summary>
    public IReadOnlyList<NextTest> ForParty(string condition, IReadOnlyList<Contradiction> contradictions, EvidenceSet evidence)
    {
        ConditionEntry entry = knowledge.ById[condition];
        HashSet<string> doubted = [.. Doubted(contradictions, evidence).Select(t => t.Test)];
        IEnumerable<NextTest> telling = entry.Causes
            .SelectMany(c => c.Evidence.Values.SelectMany(ids => ids))
            .Select(knowledge.Trials.TestOf)
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Where(t => !evidence.Made(t) && !doubted.Contains(t))
            .Select(t => knowledge.Tests[t])
            .OrderBy(t => t.Invasiveness)
            .ThenBy(t => t.Id, StringComparer.Ordinal)
            .Select(t => ToNext(t, null, "tells the causes apart"));
        return
        [
            .. Doubted(contradictions, evidence),
            .. telling.Take(knowledge.Ranking.NextTests.MaxTests),
            .. Looks(evidence, [], condition).Where(t => t.Test == "history"),
        ];
    }

    /// <summary>Tests that can close a pair and were not made.</summary>
    public IEnumerable<TestEntry> DecidingTests(OpenPair pair, EvidenceSet evidence) =>
        pair.Decider.AnyOf
            .Select(knowledge.Trials.TestOf)
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Where(t => !evidence.Made(t))
            .Select(t => knowledge.Tests[t]);

    private static double Entropy(IEnumerable<double> shares) =>
        -shares.Where(p => p > 0).Sum(p => p * Math.Log2(p));

    private static NextTest ToNext(TestEntry test, double? gainBits, string reason) =>
        new(test.Id, gainBits, test.Minutes, test.Invasiveness, reason)
        {
            DisplayName = test.Name,
            How = test.How,
            Caution = test.Caution,
        };

    private string Words(string condition) => knowledge.ById[condition].Name;

    private IEnumerable<Candidate> Candidates(IReadOnlyList<Scored> ranked, EvidenceSet evidence)
    {
        string[] leading = [.. ranked.Take(knowledge.Ranking.NextTests.LeadingConditions).Select(s => s.Id)];
        return knowledge.Tests.Values
            .Where(t => !evidence.Made(t.Id))
            .Where(t => t.Outcomes.Any(o => leading.Any(c => knowledge.Weights.OfCondition(c, o) is not null)))
            .Select(t => Value(t, ranked));
    }

    // Expected gain: entropy of the shares now, less the entropy after each outcome, weighted by how probable the outcome
    // is. P(outcome | condition) is the outcome's factor over the sum of the factors of all outcomes.
    private Candidate Value(TestEntry test, IReadOnlyList<Scored> ranked)
    {
        int outcomes = test.Outcomes.Count + (test.MaySayNothing ? 1 : 0);
        double[][] joint = new double[outcomes][];
        for (int o = 0; o < outcomes; o++)
        {
            joint[o] = new double[ranked.Count];
        }

        for (int c = 0; c < ranked.Count; c++)
        {
            double[] factors =
            [
                .. test.Outcomes.Select(o => Math.Exp(knowledge.Weights.ConditionLog(ranked[c].Id, o))),
                .. test.MaySayNothing ? [1.0] : Array.Empty<double>(),
            ];
            double total = factors.Sum();
            for (int o = 0; o < outcomes; o++)
            {
                joint[o][c] = ranked[c].Share * factors[o] / total;
            }
        }

        double after = joint.Sum(row =>
        {
            double p = row.Sum();
            return p > 0 ? p * Entropy(row.Select(v => v / p)) : 0;
        });
        double gainBits = Math.Max(0, Entropy(ranked.Select(s => s.Share)) - after);
        NextTestRules rules = knowledge.Ranking.NextTests;
        double cost = 1 + (rules.MinuteCost * test.Minutes) + (rules.InvasivenessCost * test.Invasiveness);
        return new(test, gainBits, gainBits / cost);
    }

    private IEnumerable<NextTest> Doubted(IReadOnlyList<Contradiction> contradictions, EvidenceSet evidence) =>
        contradictions
            .SelectMany(c => new[] { c.First, c.Second }.Select(id => (Rule: c, Test: knowledge.Trials.TestOf(id))))
            .Where(p => p.Test is not null && evidence.Made(p.Test))
            .DistinctBy(p => p.Test)
            .Select(p => ToNext(knowledge.Tests[p.Test!], null, $"repeat it: {p.Rule.Text}"));

    private IEnumerable<NextTest> Looks(EvidenceSet evidence, HashSet<string> candidates, string leading)
    {
        foreach (TestEntry test in knowledge.Tests.Values)
        {
            if (test.Look is not { } look
                || look.MissingGroups.All(evidence.HasGroup)
                || (look.BesideTest.Count > 0 && !look.BesideTest.Any(candidates.Contains)))
            {
                continue;
            }

            string missing = string.Join(" or ", look.MissingGroups.Where(g => !evidence.HasGroup(g)));
            NextTest next = ToNext(test, null, $"nothing is known yet of {missing}");
            yield return test.Id == "history" && knowledge.ById[leading].PreExistingSigns != "none"
                ? next with { How = $"{next.How}; signs that it is older: {knowledge.ById[leading].PreExistingSigns}" }
                : next;
        }
    }

    private sealed record Candidate(TestEntry Test, double GainBits, double Worth);
}
