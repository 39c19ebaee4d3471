using CoatScan.Findings;

namespace CoatScan.Inspection;

/// <summary>The finding about photos that show no painted panel: nothing is concluded, a new photo is asked for.</summary>
internal static class NotAssessable
{
    private const string Retake =
        "Photograph the painted panel so that it fills most of the frame, in soft light, once straight on and once " +
        "with light raking across it.";

    /// <summary>Takes back everything that was concluded; what was received and seen stays.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="cautions">The cautions that hold whatever is found.</param>
    public static Finding From(Finding finding, IReadOnlyList<string> cautions) => finding with
    {
        Verdict = Verdict.NotAssessable,
        VerdictReasons =
        [
            .. finding.Photos.Select((_, i) => $"Photo {i + 1} does not seem to show a painted vehicle panel."),
        ],
        Ratings = [],
        Conditions = [],
        Beside = [],
        Causes = [],
        Parties = [],
        PartyVerdict = Verdict.Inconclusive,
        LookAlikes = [],
        NextTests =
        [
            new NextTest("photo_context", null, 1, 0, "Without a painted panel in the photo there is nothing to judge.")
            {
                DisplayName = "A photo of the panel",
                How = Retake,
            },
        ],
        Remedy = Remedy.None,
        Timing = Timing.CannotTell,
        Claim = ClaimSheet.None,
        HandOvers = [],
        Cautions = cautions,
        CustomerText = "The photo does not seem to show a painted panel, so nothing can be said about paint. " + Retake,
        CareAdvice = [],
    };
}
