using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Decides how far a condition and a party are decided, and says why.</summary>
/// <remarks>
/// <para>A verdict is about decisions, not about certainty for its own sake. What is decided by a condition is its family,
/// its first remedy step and who answers (<see cref="Decision"/>). A test is still worth doing when it raises the chance
/// of a right decision by the stated price for each unit of its cost (<see cref="TestValuer"/>), and a condition that is
/// taken for the leading one and decides otherwise could lead after it.</para>
/// <para>Conclusive (<see cref="Verdict.Sound"/> when the leading condition is <c>sound</c>): the leading condition leads
/// by its limits, something was seen or tested that speaks for it, and no test still worth doing could change what is
/// decided. Neither a missing form sign nor an open look-alike blocks by itself.</para>
/// <para>Inconclusive: not conclusive, and the leading two call for different action (<see cref="ActionRules"/>), the
/// second being close or able to lead after a test worth asking; or the action of the leading condition is not more
/// probable than all others together.</para>
/// <para>Provisional: all between. What to do first is known; a test could still change what is decided.</para>
/// <para>With a photo as the only form: at most provisional, because the classifier learned on rendered panels, and only
/// when the photo is clear and familiar. It becomes conclusive when a test that was made is a strong sign of the leading
/// condition.</para>
/// <para>Nothing wrong in a photo: the leading visual class is <c>sound</c>, clear and familiar, the leading condition is
/// <c>sound</c>, and no evidence speaks against it. That is provisional, for a photo cannot show what it does not show. It is
/// <see cref="Verdict.Sound"/> when something else speaks for it too: a sign at the car, a test, a reading, or a second
/// photo that shows nothing either. The share gate does not apply to it: it compares faults, and the absence of all of them
/// needs no lead over each. <see cref="ShotLimits"/> then asks for a look in raking light.</para>
/// </remarks>
internal sealed class VerdictRules(KnowledgeBase knowledge, TestValuer valuer)
{
    public const string SoundCondition = "sound";

    // What is seen or felt on the film; context alone is a story.
    private static readonly string[] SeenGroups = ["form", "relief", "size", "color", "gloss", "location"];

    // What a gauge said.
    private static readonly string[] ReadGroups = ["measured", "film"];

    private readonly ActionRules _actions = new(knowledge);

    public (Verdict Verdict, IReadOnlyList<string> Reasons) Condition(
        IReadOnlyList<Scored> ranked,
        IReadOnlyList<TestValue> tests,
        IReadOnlyDictionary<string, Decision> decisions,
        EvidenceSet evidence)
    {
        if (evidence.Photo is { Top.Id: SoundCondition, IsClear: true, Familiar: true } seen
            && ranked[0].Id == SoundCondition
            && !evidence.Ids.Any(id => knowledge.Weights.ConditionLog(SoundCondition, id) < 0))
        {
            return NothingSeen(seen, evidence);
        }

        TestValue[] worthAsking =
        [
            .. tests
                .Where(t => valuer.CouldChangeDecision(t) && t.MayLead.Any(Rival))
                .OrderByDescending(t => t.DecisionGain / t.Cost),
        ];
        List<string> doubts = [.. LeadDoubts(ranked), .. TestDoubts(worthAsking, ranked)];
        if (!evidence.HasCallerForm && evidence.Photo is { } photo)
        {
            string? decisive = DecisiveTest(ranked[0], evidence);
            if (doubts.Count == 0 && decisive is not null)
            {
                string test = $"A test that was made decides it: {knowledge.Evidence[decisive].Text}.";
                return (Decided(ranked[0]), [Lead(ranked), test]);
            }

            if (PhotoDoubts(photo).ToArray() is { Length: > 0 } unclear)
            {
                return (Verdict.Inconclusive, [.. doubts, .. unclear]);
            }

            doubts.Add(
                "The form is known from the photo alone, which was judged by a classifier that learned on rendered panels: "
                + "a sign confirmed at the car or a deciding test makes it conclusive.");
        }
        else if (!SomethingSeenFor(ranked[0].Id, evidence))
        {
            doubts.Add(
                "Nothing was seen or tested on the film that speaks for it: no form sign was named and no photo shows one, "
                + "and what is known of the vehicle alone is a story.");
            return (Verdict.Inconclusive, doubts);
        }

        if (doubts.Count == 0)
        {
            return (Decided(ranked[0]), [Lead(ranked), "No test still worth doing could change what it is, what to do first or who answers."]);
        }

        string? apart = Apart(ranked, worthAsking);
        return apart is null
            ? (Verdict.Provisional, [.. LeadDoubts(ranked).Any() ? [] : new[] { Lead(ranked) }, .. doubts, SameAction(ranked)])
            : (Verdict.Inconclusive, [.. doubts, apart]);

        // What nobody takes for the leading condition is the tail of the ranking; no test is made for it.
        bool Rival(string condition) =>
            knowledge.LookAlikes.Contains(ranked[0].Id, condition) && decisions[condition] != decisions[ranked[0].Id];
    }

    public (Verdict Verdict, IReadOnlyList<string> Reasons) Party(
        Verdict condition,
        string leading,
        IReadOnlyList<PartyShare> parties,
        IReadOnlyList<Contradiction> contradictions)
    {
        var doubts = new List<string>();
        if (condition == Verdict.Provisional && leading == SoundCondition)
        {
            doubts.Add("Nobody has to answer for anything unless a fault is found.");
        }
        else if (condition is not (Verdict.Conclusive or Verdict.Sound))
        {
            doubts.Add("Who answers stays open while the condition is open.");
        }

        StatusLimits limits = knowledge.Ranking.Status;
        double top = parties[0].Probability;
        double second = parties.Count > 1 ? parties[1].Probability : 0;
        if (top < limits.PartyMinShare || top < limits.PartyMinRatio * second)
        {
            doubts.Add(
                $"Who answers is shared: {parties[0].Text} {ShareText.Percent(top)}"
                + (parties.Count > 1 ? $", {parties[1].Text} {ShareText.Percent(second)}." : "."));
        }

        if (contradictions.FirstOrDefault(c => c.Doubts == "origin") is { } origin)
        {
            doubts.Add($"Who answers stays open while the origin of the finish is in doubt: {origin.Text}.");
        }

        return (doubts.Count > 0 ? Verdict.Inconclusive : Verdict.Conclusive, doubts);
    }

    private (Verdict Verdict, IReadOnlyList<string> Reasons) NothingSeen(PhotoView seen, EvidenceSet evidence)
    {
        const string limits = "Faults that need raking light, touch or a neighbor panel beside it do not show in a photo.";
        string photos = seen.PhotoCount > 1 ? $"None of the {seen.PhotoCount} photos shows a fault" : "The photo shows no fault";
        string? beside = evidence.Items
            .FirstOrDefault(i => i.Origin != EvidenceOrigin.Photo && AtTheCar(i.Id) && knowledge.Weights.ConditionLog(SoundCondition, i.Id) > 0)?
            .Text;
        if (beside is not null || seen.PhotoCount > 1)
        {
            return (Verdict.Sound,
            [
                beside is null
                    ? $"{photos} ({ShareText.Percent(seen.TopShare)}), and nothing that was said speaks against that."
                    : $"{photos} ({ShareText.Percent(seen.TopShare)}), and what was found at the car agrees: {beside}.",
                limits,
            ]);
        }

        return (Verdict.Provisional,
        [
            "Nothing wrong shows in the photo. That is a good sign and no proof: what a photo does not show can still be there.",
            limits,
            "When no relief can be seen in raking light or felt either, it is sound.",
        ]);
    }

    private bool AtTheCar(string id) =>
        SeenGroups.Contains(knowledge.Evidence[id].Group)
        || ReadGroups.Contains(knowledge.Evidence[id].Group)
        || knowledge.Trials.TrialOf(id) is not null;

    private static Verdict Decided(Scored leading) =>
        leading.Id == SoundCondition ? Verdict.Sound : Verdict.Conclusive;

    private static IEnumerable<string> PhotoDoubts(PhotoView photo)
    {
        if (!photo.IsClear)
        {
            yield return $"The photo is not clear: {photo.Top.Name.ToLowerInvariant()} {ShareText.Percent(photo.TopShare)}, "
                + $"{photo.Second.Name.ToLowerInvariant()} {ShareText.Percent(photo.SecondShare)}.";
        }

        if (!photo.Familiar)
        {
            yield return "What the classifier says of so unfamiliar a photo is not relied on.";
        }
    }

    private string Name(string condition) => knowledge.ById[condition].Name;

    private string Lead(IReadOnlyList<Scored> ranked) =>
        $"In front: {Name(ranked[0].Id)} with {ShareText.Percent(ranked[0].Share)}; "
        + $"next: {Name(ranked[1].Id)} with {ShareText.Percent(ranked[1].Share)}.";

    private IEnumerable<string> LeadDoubts(IReadOnlyList<Scored> ranked)
    {
        StatusLimits limits = knowledge.Ranking.Status;
        bool small = ranked[0].Share < limits.ConditionMinShare;
        bool close = ranked[0].Share < limits.ConditionMinRatio * ranked[1].Share;
        string least = ShareText.Percent(limits.ConditionMinShare);
        string share = ShareText.Percent(ranked[0].Share);

        // "60 %, but 60 % is needed" would read as a mistake.
        string leads = $"In front: {Name(ranked[0].Id)} with {(small && share == least ? "just under " : "")}{share}";
        string next = $"close behind: {Name(ranked[1].Id)} with {ShareText.Percent(ranked[1].Share)}";
        string need = $"{least} is needed";
        if (small || close)
        {
            yield return (small, close) switch
            {
                (true, true) => $"{leads}, but {need}; {next}.",
                (true, false) => $"{leads}, but {need}.",
                _ => $"{leads}; {next}.",
            };
        }
    }

    private IEnumerable<string> TestDoubts(TestValue[] worthAsking, IReadOnlyList<Scored> ranked)
    {
        // Tests after which the same conditions could lead share a sentence.
        foreach (IGrouping<string, TestValue> group in worthAsking.GroupBy(Others, StringComparer.Ordinal))
        {
            string[] names = [.. group.Select((t, i) => i == 0 ? t.Test.Name : char.ToLowerInvariant(t.Test.Name[0]) + t.Test.Name[1..])];
            string tests = names.Length == 1
                ? $"{names[0]} is still worth doing: after it"
                : $"{string.Join(", ", names[..^1])} and {names[^1]} are still worth doing: after one of them";
            yield return $"{tests} {(group.Key.Length > 0 ? $"{group.Key} could lead." : "what is decided could change.")}";
        }

        string Others(TestValue value) =>
            string.Join(" or ", value.MayLead.Where(c => c != ranked[0].Id).Select(Name).Order(StringComparer.Ordinal));
    }

    private bool SomethingSeenFor(string condition, EvidenceSet evidence) => evidence.Ids.Any(id =>
        (SeenGroups.Contains(knowledge.Evidence[id].Group) || knowledge.Trials.TrialOf(id) is not null)
        && knowledge.Weights.ConditionLog(condition, id) > 0);

    // Null when what to do first is the same whichever of the leading ones it is.
    private string? Apart(IReadOnlyList<Scored> ranked, TestValue[] worthAsking)
    {
        double ratio = knowledge.Ranking.Status.ConditionMinRatio;
        Scored second = ranked[1];
        bool inPlay = second.Share * ratio >= ranked[0].Share
            || worthAsking.Any(t => t.MayLead.Contains(second.Id));
        if (inPlay && _actions.Differ(ranked[0].Id, second.Id))
        {
            return $"{Name(ranked[0].Id)} and {Name(second.Id)} call for different action.";
        }

        double share = ranked.Where(s => _actions.Of(s.Id) == _actions.Of(ranked[0].Id)).Sum(s => s.Share);
        return share >= knowledge.Ranking.Status.ActionMinShare
            ? null
            : $"No single action is more probable than all others together; the leading one has {ShareText.Percent(share)}.";
    }

    private string SameAction(IReadOnlyList<Scored> ranked)
    {
        (_, string step) = _actions.Of(ranked[0].Id);
        return $"What to do is the same for all that is likely: {knowledge.Operations[step].Text}.";
    }

    private string? DecisiveTest(Scored leading, EvidenceSet evidence) =>
        evidence.Ids.FirstOrDefault(id =>
            knowledge.Trials.TrialOf(id) is not null
            && knowledge.Weights.OfCondition(leading.Id, id) == LikelihoodClass.StrongFor);
}
