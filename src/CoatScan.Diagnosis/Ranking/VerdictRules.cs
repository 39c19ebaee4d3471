using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>Decides how far a condition and a party are decided, and says why.</summary>
/// <remarks>
/// <para>Condition, with a form sign of the caller: the published gates. Inconclusive when the leading share is below its
/// limit, its lead is below its limit, or a look-alike in play has none of its deciding evidence; else conclusive
/// (<see cref="Verdict.Sound"/> when the leading condition is <c>sound</c>).</para>
/// <para>Without any form sign and without a photo: inconclusive.</para>
/// <para>With a photo as the only form: the same gates, and the photo itself must be clear (leading visual class probable
/// and well ahead) and familiar; then at most provisional, because the classifier learned on rendered panels. It becomes
/// conclusive only when a test that was made is a strong sign of the leading condition.</para>
/// <para>Sound from a photo: the leading visual class is <c>sound</c>, clear and familiar, the leading condition is
/// <c>sound</c>, and no evidence speaks against it. The share gate does not apply: it compares faults, and the absence of
/// all of them needs no lead over each.</para>
/// </remarks>
internal sealed class VerdictRules(KnowledgeBase knowledge)
{
    public const string SoundCondition = "sound";

    public (Verdict Verdict, IReadOnlyList<string> Reasons) Condition(
        IReadOnlyList<Scored> ranked,
        IReadOnlyList<OpenPair> open,
        EvidenceSet evidence)
    {
        if (evidence.Photo is { Top.Id: SoundCondition, IsClear: true, Familiar: true } seen
            && ranked[0].Id == SoundCondition
            && !evidence.Ids.Any(id => knowledge.Weights.ConditionLog(SoundCondition, id) < 0))
        {
            return (Verdict.Sound,
            [
                $"The photo shows no fault ({Percent(seen.TopShare)}), and nothing that was said speaks against that.",
                "This holds within the limits of the photo: faults that need raking light, touch or a neighbor panel do not "
                + "show in it.",
            ]);
        }

        List<string> doubts = [.. Gates(ranked, open)];
        if (evidence.HasCallerForm)
        {
            return doubts.Count > 0
                ? (Verdict.Inconclusive, doubts)
                : (Decided(ranked[0]), [Lead(ranked)]);
        }

        if (evidence.Photo is not { } photo)
        {
            doubts.Add("No form sign was named and no photo shows one: the shape of the fault is unknown.");
            return (Verdict.Inconclusive, doubts);
        }

        string? decisive = DecisiveTest(ranked[0], evidence);
        if (doubts.Count == 0 && decisive is not null)
        {
            string test = $"A test that was made decides it: {knowledge.Evidence[decisive].Text}.";
            return (Decided(ranked[0]), [Lead(ranked), test]);
        }

        doubts.AddRange(PhotoDoubts(photo));
        return doubts.Count > 0
            ? (Verdict.Inconclusive, doubts)
            : (Verdict.Provisional,
            [
                Lead(ranked),
                "The form is known from the photo alone, which was judged by a classifier that learned on rendered panels: "
                + "a sign confirmed at the car or a deciding test makes it conclusive.",
            ]);
    }

    public (Verdict Verdict, IReadOnlyList<string> Reasons) Party(
        Verdict condition,
        IReadOnlyList<PartyShare> parties,
        IReadOnlyList<Contradiction> contradictions)
    {
        var doubts = new List<string>();
        if (condition is not (Verdict.Conclusive or Verdict.Sound))
        {
            doubts.Add("Who answers stays open while the condition is open.");
        }

        StatusLimits limits = knowledge.Ranking.Status;
        double top = parties[0].Probability;
        double second = parties.Count > 1 ? parties[1].Probability : 0;
        if (top < limits.PartyMinShare || top < limits.PartyMinRatio * second)
        {
            doubts.Add(
                $"Who answers is shared: {parties[0].Text} {Percent(top)}"
                + (parties.Count > 1 ? $", {parties[1].Text} {Percent(second)}." : "."));
        }

        if (contradictions.FirstOrDefault(c => c.Doubts == "origin") is { } origin)
        {
            doubts.Add($"Who answers stays open while the origin of the finish is in doubt: {origin.Text}.");
        }

        return (doubts.Count > 0 ? Verdict.Inconclusive : Verdict.Conclusive, doubts);
    }

    private static Verdict Decided(Scored leading) =>
        leading.Id == SoundCondition ? Verdict.Sound : Verdict.Conclusive;

    private static string Percent(double share) => (share * 100).ToString("0.#", CultureInfo.InvariantCulture) + " %";

    private string Name(string condition) => knowledge.ById[condition].Name;

    private string Lead(IReadOnlyList<Scored> ranked) =>
        $"{Name(ranked[0].Id)} leads with {Percent(ranked[0].Share)}; "
        + $"next is {Name(ranked[1].Id)} with {Percent(ranked[1].Share)}.";

    private IEnumerable<string> Gates(IReadOnlyList<Scored> ranked, IReadOnlyList<OpenPair> open)
    {
        StatusLimits limits = knowledge.Ranking.Status;
        if (ranked[0].Share < limits.ConditionMinShare)
        {
            yield return $"The leading condition, {Name(ranked[0].Id)}, has {Percent(ranked[0].Share)}; "
                + $"{Percent(limits.ConditionMinShare)} is needed.";
        }

        if (ranked[0].Share < limits.ConditionMinRatio * ranked[1].Share)
        {
            yield return $"{Name(ranked[0].Id)} does not lead {Name(ranked[1].Id)} clearly "
                + $"({Percent(ranked[0].Share)} to {Percent(ranked[1].Share)}).";
        }

        foreach (OpenPair pair in open)
        {
            yield return $"{Name(pair.Leading)} and {Name(pair.Other)} look alike and no deciding test was made.";
        }
    }

    private static IEnumerable<string> PhotoDoubts(PhotoView photo)
    {
        if (!photo.IsClear)
        {
            yield return $"The photo is not clear: {photo.Top.Name.ToLowerInvariant()} {Percent(photo.TopShare)}, "
                + $"{photo.Second.Name.ToLowerInvariant()} {Percent(photo.SecondShare)}.";
        }

        if (!photo.Familiar)
        {
            yield return "The photo is unlike those the classifier learned from; its classes are not relied on.";
        }
    }

    private string? DecisiveTest(Scored leading, EvidenceSet evidence) =>
        evidence.Ids.FirstOrDefault(id =>
            knowledge.Trials.TrialOf(id) is not null
            && knowledge.Weights.OfCondition(leading.Id, id) == LikelihoodClass.StrongFor);
}
