using CoatScan.V1;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary>An invented finding with every part filled.</summary>
internal static class SampleFinding
{
    public static Finding Full() => new()
    {
        Name = "findings/sample",
        Verdict = Verdict.Provisional,
        VerdictReasons = { "hard-water mineral deposit is still possible: mild acid wipe decides" },
        Panel = "hood",
        CustomerText = "Drops dried in the sun and left rings. Some may have eaten into the clear coat.",
        Photos =
        {
            new PhotoReport
            {
                DisplayName = "hood.jpg", WidthPx = 3000, HeightPx = 2000,
                Issues =
                {
                    new PhotoIssue
                    {
                        Code = "NO_SCALE", Detail = "no scale is known, lengths are in pixels",
                        HowToFix = "lay a ruler on the panel and give the scale",
                    },
                },
                Scale = new PhotoScale { Source = "NONE" },
            },
        },
        VisualClasses =
        {
            new VisualClassShare
            {
                VisualClass = "rings", Probability = 0.9234, AreaFraction = 0.12,
                Regions = { new Region { StartXPx = 100, StartYPx = 100, EndXPx = 900, EndYPx = 600 } },
            },
            new VisualClassShare { VisualClass = "sound", Probability = 0.04 },
        },
        Measurements =
        {
            new Measurement { Metric = "spot_count", Value = 41, Unit = "1" },
            new Measurement { Metric = "spot_diameter", Value = 37.25, Unit = "[px]", Uncertainty = 2 },
            new Measurement { Metric = "spot_density_per_dm2", Unit = "/dm2", AbsentReason = "no-scale" },
        },
        Ratings = { new Rating { Standard = "ISO 4628-1", Designation = "quantity 3", Basis = "41 spots" } },
        Evidence =
        {
            new EvidenceItem { Id = "photo.rings", Origin = "PHOTO", Text = "the photo shows rings (92 %)" },
            new EvidenceItem { Id = "care.waxed_regularly", Origin = "CALLER", Text = "waxed regularly" },
        },
        Conditions =
        {
            new ConditionShare
            {
                Condition = "conditions/water_ring_etch", DisplayName = "Water-spot ring etching", Probability = 0.6234,
                Evidence =
                {
                    new EvidenceWeight { Id = "photo.rings", WeightLog = 2, Reason = "rings" },
                    new EvidenceWeight { Id = "base", WeightLog = 1.2, Reason = "often met" },
                    new EvidenceWeight { Id = "care.waxed_regularly", WeightLog = -0.4, Reason = "waxed" },
                },
            },
            new ConditionShare
            {
                Condition = "conditions/mineral_deposit", DisplayName = "Hard-water mineral deposit", Probability = 0.21,
            },
        },
        Causes =
        {
            new CauseShare
            {
                Condition = "conditions/water_ring_etch", Cause = "causes/water_ring_etch.sun_dried", Probability = 0.7,
                Party = "owner_care", Text = "drops left to dry in the sun",
                Mechanism = "salts concentrate at the rim and attack the clear",
            },
        },
        Parties =
        {
            new PartyShare { Party = "owner_care", Probability = 0.52, Text = "owner care or neglect" },
            new PartyShare { Party = "environment", Probability = 0.41, Text = "fallout, weather, animals, plants" },
        },
        PartyVerdict = Verdict.Inconclusive,
        LookAlikes =
        {
            new LookAlike
            {
                Condition = "conditions/water_ring_etch", Other = "conditions/mineral_deposit",
                DecidingTests = { "acid" }, Tell = "mild acid removes a deposit",
            },
        },
        NextTests =
        {
            new NextTest
            {
                Test = "acid", DisplayName = "Mild acid wipe", Minutes = 5, Invasiveness = 1,
                How = "diluted vinegar on a cool panel, 1 minute, rinse", Reason = "deposit or etch",
                Caution = "rinse and neutralize",
            },
        },
        Contradictions =
        {
            new Contradiction
            {
                First = "finish.factory", Second = "film.over_300_um", Doubts = "origin",
                Text = "factory film above 300 um is not credible",
                Consequence = "Who answers stays open until the film is read again.",
            },
        },
        Remedy = new Remedy
        {
            Steps =
            {
                new RemedyStep { Operation = "wash", Action = "wash, dry in shade", StopIf = "stop when the mark is gone" },
                new RemedyStep
                {
                    Operation = "hand_polish", Action = "hand cleaner-polish", StopIf = "the ring is gone", Wait = "none",
                    Hours = new HourRange { Low = 0.5, High = 1.5 },
                },
            },
            MustNot = { new MustNot { Operation = "machine_polish", Why = "grinds salt crust in", Scope = "until_met" } },
        },
        Timing = new Timing { Class = "EVENT_OR_ACCUMULATED", DoesNotFit = { "hail date before the last wash" } },
        Cautions = { "acid only diluted, on a cool panel" },
        CareAdvice = { "dry after washing", "wax" },
    };
}
