using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Chooses what to test next: what decides an open pair, then what tells most for its cost, then missing looks.</summary>
/// <remarks>
/// Every open look-alike pair, the most probable first, is given the one deciding test that tells most for its cost; a test
/// that is named already covers all pairs it decides. Then tests and looks follow by expected gain of information for each
/// unit of cost (minutes, invasiveness), worked out exactly over the current shares. Tests that were made are not asked
/// again, unless a contradiction puts them in doubt.
/// </remarks>
internal sealed class NextTestPlanner(KnowledgeBase knowledge)
{
    private const string Consent =
        "on a claim only with the consent of owner and insurer, and a photo before and after";

    /// <summary>Plans the tests of a condition that is not decided.</summary>
    public IReadOnlyList<NextTest> ForCondition(
        IReadOnlyList<Scored> ranked,
        IReadOnlyList<TestValue> values,
        IReadOnlyList<OpenPair> open,
        IReadOnlyList<Contradiction> contradictions,
        EvidenceSet evidence)
    {
        TestValue[] candidates = [.. Candidates(ranked, values)];
        NextTest[] deciding = [.. Deciding(open, values, evidence)];
        NextTest[] telling =
        [
            .. candidates
                .Where(c => c.GainBits >= knowledge.Ranking.NextTests.MinGainBits)
                .OrderByDescending(c => c.Worth)
                .ThenBy(c => c.Test.Id, StringComparer.Ordinal)
                .Select(c => ToNext(c.Test, c.GainBits, c.Test.Look is { } look
                    ? Missing(look, evidence)
                    : "tells most about the leading conditions for its cost")),
        ];
        HashSet<string> beside = candidates.Select(c => c.Test.Id).ToHashSet(StringComparer.Ordinal);
        NextTest[] looks = [.. Looks(evidence, beside, ranked[0].Id, values)];
        NextTest[] first = [.. Doubted(contradictions, evidence), .. deciding];

        // Until somebody has seen at the car what a photo shows, a better look is worth more than a test of one guess.
        IEnumerable<NextTest> all = evidence.Photo is null
            ? [.. first, .. telling, .. looks]
            : [.. first, .. looks, .. telling];
        HashSet<string> free = [.. looks.Select(l => l.Test)];
        int room = knowledge.Ranking.NextTests.MaxTests;
        return [.. all.DistinctBy(t => t.Test).Where(t => free.Contains(t.Test) || room-- > 0)];
    }

    /// <summary>Plans the tests of a condition that is decided while a look-alike is open: it would change no step.</summary>
    public IReadOnlyList<NextTest> ForName(
        IReadOnlyList<OpenPair> ofLeading,
        IReadOnlyList<TestValue> values,
        EvidenceSet evidence) =>
    [
        .. Deciding(ofLeading, values, evidence)
            .Select(t => t with { Reason = $"{t.Reason}; it would change neither the first step nor who answers" }),
    ];

    /// <summary>Plans the tests of a condition that is decided while the party is open.</summary>
    public IReadOnlyList<NextTest> ForParty(
        string condition,
        IReadOnlyList<OpenPair> ofLeading,
        IReadOnlyList<TestValue> values,
        IReadOnlyList<Contradiction> contradictions,
        EvidenceSet evidence)
    {
        ConditionEntry entry = knowledge.ById[condition];
        NextTest[] doubted = [.. Doubted(contradictions, evidence)];
        IEnumerable<NextTest> telling = entry.Causes
            .SelectMany(c => c.Evidence.Values.SelectMany(ids => ids))
            .Select(knowledge.Trials.TestOf)
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Where(t => !evidence.Made(t))
            .Select(t => knowledge.Tests[t])
            .OrderBy(t => t.Invasiveness)
            .ThenBy(t => t.Id, StringComparer.Ordinal)
            .Select(t => ToNext(t, null, "tells the causes apart"));
        IEnumerable<NextTest> all =
        [
            .. doubted,
            .. ForName(ofLeading, values, evidence),
            .. Looks(evidence, [], condition, values).Where(t => t.Test == "history"),
            .. telling.Take(knowledge.Ranking.NextTests.MaxTests),
        ];
        return [.. all.DistinctBy(t => t.Test)];
    }

    /// <summary>Tests that can close a pair and were not made.</summary>
    public IEnumerable<TestEntry> DecidingTests(OpenPair pair, EvidenceSet evidence) =>
        pair.Decider.AnyOf
            .Select(knowledge.Trials.TestOf)
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Where(t => !evidence.Made(t))
            .Select(t => knowledge.Tests[t]);

    // What spends film or destroys is never asked for without the words on consent.
    private static NextTest ToNext(TestEntry test, double? gainBits, string reason) =>
        new(test.Id, gainBits, test.Minutes, test.Invasiveness, reason)
        {
            DisplayName = test.Name,
            How = test.How,
            Caution = test.Caution,
            Consent = test.Invasiveness >= 2 ? Consent : "",
        };

    private IEnumerable<NextTest> Deciding(
        IReadOnlyList<OpenPair> open,
        IReadOnlyList<TestValue> values,
        EvidenceSet evidence)
    {
        Dictionary<string, TestValue> byTest = values.ToDictionary(v => v.Test.Id, StringComparer.Ordinal);
        var named = new HashSet<string>(StringComparer.Ordinal);
        foreach (OpenPair pair in open)
        {
            TestValue[] deciding = [.. DecidingTests(pair, evidence).Select(t => byTest[t.Id])];
            if (deciding.Length == 0 || deciding.Any(t => named.Contains(t.Test.Id)))
            {
                continue;
            }

            TestValue best = deciding.OrderByDescending(t => t.Worth).ThenBy(t => t.Test.Id, StringComparer.Ordinal).First();
            named.Add(best.Test.Id);
            yield return ToNext(
                best.Test,
                best.GainBits,
                $"tells {Words(pair.Leading)} from {Words(pair.Other)}: {pair.Decider.Reading}");
        }
    }

    private static string Missing(TestLook look, EvidenceSet evidence) =>
        "nothing is known yet of " + string.Join(" or ", look.MissingGroups.Where(g => !evidence.HasGroup(g)));

    private string Words(string condition) => knowledge.ById[condition].Name;

    // Only tests that one of the leading conditions lists: what merely sorts out the improbable is not asked for.
    private IEnumerable<TestValue> Candidates(IReadOnlyList<Scored> ranked, IReadOnlyList<TestValue> values)
    {
        string[] leading = [.. ranked.Take(knowledge.Ranking.NextTests.LeadingConditions).Select(s => s.Id)];
        return values.Where(v =>
            knowledge.Outcomes.OutcomesOf(v.Test.Id).Any(o => leading.Any(c => knowledge.Weights.OfCondition(c, o) is not null)));
    }

    private IEnumerable<NextTest> Doubted(IReadOnlyList<Contradiction> contradictions, EvidenceSet evidence) =>
        contradictions
            .SelectMany(c => new[] { c.First, c.Second }.Select(id => (Rule: c, Test: knowledge.Trials.TestOf(id))))
            .Where(p => p.Test is not null && evidence.Made(p.Test))
            .DistinctBy(p => p.Test)
            .Select(p => ToNext(knowledge.Tests[p.Test!], null, $"repeat it: {p.Rule.Text}"));

    private IEnumerable<NextTest> Looks(
        EvidenceSet evidence,
        HashSet<string> candidates,
        string leading,
        IReadOnlyList<TestValue> values)
    {
        foreach (TestEntry test in knowledge.Tests.Values)
        {
            if (test.Look is not { } look
                || look.MissingGroups.All(evidence.HasGroup)
                || (look.BesideTest.Count > 0 && !look.BesideTest.Any(candidates.Contains)))
            {
                continue;
            }

            double? gainBits = values.FirstOrDefault(v => v.Test.Id == test.Id)?.GainBits;
            NextTest next = ToNext(test, gainBits, Missing(look, evidence));
            yield return test.Id == "history" && knowledge.ById[leading].PreExistingSigns != "none"
                ? next with { How = $"{next.How}; signs that it is older: {knowledge.ById[leading].PreExistingSigns}" }
                : next;
        }
    }
}
