using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.StorageTests;

/// <summary>Invented findings.</summary>
internal static class TestFindings
{
    public static readonly DateTimeOffset Noon = new(2026, 3, 14, 12, 0, 0, TimeSpan.Zero);

    /// <summary>The least that a finding needs.</summary>
    public static Finding Small(int number, DateTimeOffset? createTime = null) => new()
    {
        Name = "findings/f" + number.ToString("D6", CultureInfo.InvariantCulture),
        CreateTime = createTime ?? Noon.AddSeconds(number),
        Verdict = Verdict.Inconclusive,
        Provenance = new Provenance("0.1.0", "m1", new string('a', 64), "k1", "s1"),
    };

    /// <summary>A finding with something in every field, and values that a careless format would lose.</summary>
    public static Finding Full() => new()
    {
        Name = "findings/full-1",
        CreateTime = new DateTimeOffset(2026, 3, 14, 15, 9, 26, TimeSpan.Zero).AddTicks(5_358_979),
        Verdict = Verdict.Provisional,
        VerdictReasons = ["Two conditions are close.", "\"Quoted\", <marked> & überprüft 塗装 \u2028 \n"],
        Panel = "Tür hinten links",
        ExternalRef = "claim 0042/7",
        Photos =
        [
            new PhotoReport
            {
                Sha256 = new string('b', 64),
                DisplayName = "door.jpg",
                WidthPx = 4000,
                HeightPx = 3000,
                CaptureTime = "2026-03-01T10:00:00",
                Spots = [new SpotMark(12.5, 0.1, 3), new SpotMark(3999, 2999.9, 120.4)],
                SpotsLeftOut = 3,
                Issues = [new PhotoIssue(PhotoIssueCode.Glare, "12 % clipped, limit 5 %", "Turn away from the lamp.", "What shows beside it counts.")],
                Scale = new PhotoScale(ScaleSource.Caller, 0.1 + 0.2),
            },
            new PhotoReport { Sha256 = new string('c', 64), WidthPx = 640, HeightPx = 480 },
        ],
        Facts = new PanelFacts
        {
            Evidence = ["form.rings"],
            Statements = [new Statement("history.recent", "owner")],
            Readings = new Readings { FilmUm = [0.1 + 0.2, 118], Gloss60 = 85, DeltaE00 = 0.5, FaultDepthUm = 3, FilmPanels = [new PanelFilm("roof", [101])] },
            MmPerPx = 0.2,
            AppliedOn = new DateOnly(2026, 2, 28),
            Panel = "Tür hinten links",
            ExternalRef = "claim 0042/7",
        },
        VisualClasses =
        [
            new VisualClassShare
            {
                VisualClass = "rings",
                Probability = 1.0 / 3.0,
                Regions = [new Region(0, 1, 2, 30, 40, 2.9, null), new Region(1, 5, 6, 7, 8)],
                AreaFraction = 5e-324,
            },
        ],
        Measurements =
        [
            Measurement.Of("spot_count", -0.0, "1") with { PhotoIndex = 1 },
            Measurement.Of("waviness_um", Math.PI, "um", double.Epsilon),
            Measurement.Of("largest", double.MaxValue, "1", 0.1),
            Measurement.Absent("spot_count_per_cm2", "cm-2", "no-scale") with { PhotoIndex = 1 },
        ],
        Ratings = [new Rating("ASTM D610", "6-S", "rust_area_fraction, 1.0 %")],
        Evidence =
        [
            new EvidenceItem("form.rings", EvidenceOrigin.Caller, "Rings"),
            new EvidenceItem("film.over_300_um", EvidenceOrigin.Reading, "Thick"),
            new EvidenceItem("photo.rings", EvidenceOrigin.Photo, "Rings seen") { SaidBy = ["photo 1", "photo 2"] },
        ],
        Conditions =
        [
            new ConditionShare("ring_etch", 0.7, [new EvidenceWeight("form.rings", -1.2345678901234567, "fits")])
            {
                DisplayName = "Ring etch",
            },
            new ConditionShare("mineral_deposit", 0.3, []),
        ],
        Causes =
        [
            new CauseShare("ring_etch", "acid_rain", 0.9, "environment", [new EvidenceWeight("a", 1, "b")])
            {
                Text = "Acid rain",
                Mechanism = "Etches",
            },
        ],
        Beside = ["chalking"],
        Parties = [new PartyShare("environment", 0.9, "Nobody") { For = ["rain"], Against = ["roof"] }],
        PartyVerdict = Verdict.Conclusive,
        LookAlikes = [new LookAlike("ring_etch", "mineral_deposit", ["mild_acid"], "Deposit dissolves.")],
        NextTests =
        [
            new NextTest("mild_acid", 0.8, 5, 1, "tells them apart") { DisplayName = "Acid", How = "Wipe", Caution = "Gloves", Consent = "owner" },
            new NextTest("loupe", null, 1, 0, "look"),
        ],
        Contradictions = [new Contradiction("a", "b", "date", "cannot both be") { Consequence = "ask" }],
        Remedy = new Remedy(
            [
                new RemedyStep("wash", "Wash", "clean", "1 h", new HourRange(0.2, 0.5))
                {
                    HoursFor = "vehicle",
                    Materials = "soap",
                    Condition = "chalking",
                    NotBefore = new DateOnly(2026, 5, 2),
                    BetterFrom = new DateOnly(2026, 5, 6),
                    SpendsUm = new FilmSpend(0.2, 0.5),
                },
                new RemedyStep("polish", "Polish", "gone", null, null),
            ],
            [new MustNot("sand", "thin film", "until_met")]),
        Timing = new Timing(TimingClass.EventOrAccumulated, ["rain"], ["new car"]),
        Claim = new ClaimSheet
        {
            Dates = DatesFit.DoesNotFit,
            DatesText = "It does not fit.",
            Questions = ["When?"],
            SignsOfAge = "rust",
        },
        FilmMap = [new FilmMapEntry("hood", 2, 100, 105.5, 111, FilmClass.SeveralFinishes, true, "uneven")],
        FilmBudget = new FilmBudget(100, null, 2.5, "fine polish"),
        HandOvers = [new HandOver("structure", "rust", "a licensed shop")],
        Cautions = ["Ventilate."],
        CustomerText = "Drops of rain.",
        CareAdvice = ["Wash weekly."],
        Provenance = new Provenance("0.1.0", "m1", new string('a', 64), "k1", "s1"),
    };
}
