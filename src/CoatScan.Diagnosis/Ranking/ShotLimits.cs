using CoatScan.Findings;

namespace CoatScan.Diagnosis;

/// <summary>What a verdict may not say because a look was missing: in raking light, through a good photo, after a wash, at a neighbor.</summary>
/// <remarks>It only takes back what is decided to provisional, and says what look is missing. Trade practice, no source.</remarks>
internal static class ShotLimits
{
    private const string Mismatch = "color_mismatch";
    private const string SpottingFamily = "spotting";

    // Their texts say that they were looked for in raking light.
    private static readonly string[] Raked = ["form.none", "relief.flat"];
    private static readonly string[] Washed = ["test.wash.removes", "test.wash.no_effect"];
    private static readonly string[] Compared = ["color.differs_from_neighbor", "measured.delta_e_over_2", "measured.delta_e_under_1"];

    /// <summary>The verdict and its reasons within these limits.</summary>
    /// <param name="judged">What the evidence decides.</param>
    /// <param name="leading">The leading condition.</param>
    /// <param name="evidence">What is known.</param>
    /// <param name="photo">What the photos show; null without photos.</param>
    public static (Verdict Verdict, IReadOnlyList<string> Reasons) Cap(
        (Verdict Verdict, IReadOnlyList<string> Reasons) judged, ConditionEntry leading, EvidenceSet evidence, PhotoEvidence? photo)
    {
        string[] missing = judged.Verdict switch
        {
            Verdict.Sound => [.. SoundLimits(evidence, photo)],
            Verdict.Conclusive => [.. FaultLimits(leading, evidence)],
            _ => [],
        };
        return missing.Length == 0 ? judged : (Verdict.Provisional, [.. judged.Reasons, .. missing]);
    }

    private static IEnumerable<string> SoundLimits(EvidenceSet evidence, PhotoEvidence? photo)
    {
        if (!Raked.Any(evidence.Has))
        {
            yield return "Nobody looked in raking light, in which domes, pits and waves show: without it a panel is not called sound.";
        }

        foreach (string doubt in photo?.SoundDoubts ?? [])
        {
            yield return doubt;
        }
    }

    private static IEnumerable<string> FaultLimits(ConditionEntry leading, EvidenceSet evidence)
    {
        // Who names the form at the car has looked closer than a photo of a panel that may be dirty.
        if (leading.Family == SpottingFamily && evidence.Photo is not null && !Washed.Any(evidence.Has))
        {
            yield return "The panel was not washed before: a spot that a photo shows stays a candidate until a wash leaves it.";
        }

        if (leading.Id == Mismatch && !Compared.Any(evidence.Has))
        {
            yield return "No neighbor was compared: without one there is no mismatch.";
        }
    }
}
