using CoatScan.Findings;
using CoatScan.Imaging;

namespace CoatScan.ReportsTests;

/// <summary>Invented findings: one with every part, one with as little as there can be, and a photo.</summary>
internal static class Samples
{
    private const int WidthPx = 400;
    private const int HeightPx = 300;

    /// <summary>A photo of stripes.</summary>
    public static SheetPhoto Photo { get; } = SheetPhoto.Of(Jpeg(), CancellationToken.None);

    /// <summary>Texts of the full finding, one from each of its parts, as they must appear on its sheet.</summary>
    public static readonly string[] EveryPart =
    [
        "Blistering", "left door", "claim 77-A", "Blistering leads with 71 %.", "2026-05-02", "findings/full",
        "domes", "120 x 60 mm", "The bar is 50 mm long.",
        "Warm it slowly.", "Stop when the domes are flat.", "1 to 7 days.", "Not before 2026-05-20.", "Better from 2026-06-01.",
        "0.5 to 2 (one panel)", "lamp", "2 to 4 µm of film",
        "Polish by machine", "opens the skin", "not before that is cleared",
        "up to 5 µm in all", "A licensed shop", "holds lead", "Keep the lamp away from glass.",
        "Wet on touch", "strong; owner", "Flat in the sun", "slight",
        "Flaking to metal", "metal shows or not", "Also on this panel:", "Fading",
        "Factory film above 300 µm is not credible.", "The origin stays open.",
        "ISO 4628-2", "3(S4)", "Computed from 41 domes.", "Spot diameter", "2.40 mm", "± 0.30 mm", "No highlight of a lamp", "gloss loss index",
        "40 / 95 / 310", "Uneven: a repaint is likely.",
        "No scale", "Lay the card down.", "Nothing is said in millimeters.", "left as the camera balanced it", "Not sharp", "Hold the camera still.",
        "Prick test", "one dome, hidden", "Mind: ask first.", "With consent of the owner.", "4 min", "destroys the spot", "Water or air inside.",
        "Water under the film", "osmosis lifts the film", "Workmanship of the painter", "62 %", "repaint proven", "both sides alike",
        "over months or years", "kept outdoors", "said to be of last week", "The dates do not fit.", "older: a broken edge", "When did you first see it?",
        "1.2.3", "9.8.7", "aa11bb22", "2026.11.9", "metric set 5", "door.jpg", "taken 2026-05-01 10:00:00 by the camera's clock",
        "0.5 mm per pixel from the card",
    ];

    /// <summary>A finding with every part filled.</summary>
    public static Finding Full() => new()
    {
        Name = "findings/full",
        CreateTime = new DateTimeOffset(2026, 5, 2, 9, 30, 0, TimeSpan.Zero),
        Verdict = Verdict.Provisional,
        VerdictReasons = ["Blistering leads with 71 %."],
        Panel = "left door",
        ExternalRef = "claim 77-A",
        Photos =
        [
            new PhotoReport
            {
                Sha256 = Photo.Sha256, DisplayName = "door.jpg", WidthPx = WidthPx, HeightPx = HeightPx,
                CaptureTime = "2026-05-01T10:00:00",
                Scale = new PhotoScale(ScaleSource.Card, 0.5) { TiltDegrees = 4 },
            },
            new PhotoReport
            {
                Sha256 = new string('c', 64), DisplayName = "second.jpg", WidthPx = 10, HeightPx = 10,
                Issues =
                [
                    new PhotoIssue(PhotoIssueCode.NoScale, "no card was found", "lay the card down", "nothing is said in millimeters"),
                    new PhotoIssue(PhotoIssueCode.Blurred, "edges are 4 px wide", "hold the camera still", "fine lines are lost"),
                ],
            },
        ],
        VisualClasses =
        [
            new VisualClassShare
            {
                VisualClass = "domes", Probability = 0.93, AreaFraction = 0.2,
                Regions = [new Region(0, 40, 50, 280, 170, 120, 60), new Region(0, 300, 200, 380, 280, 40, 40)],
            },
            new VisualClassShare { VisualClass = "sound", Probability = 0.02 },
        ],
        Measurements =
        [
            Measurement.Of("spot_diameter_mm", 2.4, "mm", 0.3),
            Measurement.Of("spot_count", 41, "1"),
            Measurement.Absent("gloss_loss_index", "1", "no highlight of a lamp"),
        ],
        Ratings = [new Rating("ISO 4628-2", "3(S4)", "computed from 41 domes")],
        Evidence =
        [
            new EvidenceItem("test.touch.wet", EvidenceOrigin.Caller, "wet on touch") { SaidBy = ["owner"] },
            new EvidenceItem("relief.flat", EvidenceOrigin.Caller, "flat in the sun"),
        ],
        Conditions =
        [
            new ConditionShare(
                "blistering", 0.71, [new("base", 1, "often met"), new("test.touch.wet", 2, "wet"), new("relief.flat", -0.3, "flat")])
            {
                DisplayName = "Blistering",
            },
            new ConditionShare("flake_to_metal", 0.2, []) { DisplayName = "Flaking to metal" },
            new ConditionShare("uv_fade", 0.06, []) { DisplayName = "Fading" },
        ],
        Beside = ["uv_fade"],
        Causes = [new CauseShare("blistering", "water", 0.8, "applicator", []) { Text = "water under the film", Mechanism = "osmosis lifts the film" }],
        Parties = [new PartyShare("applicator", 0.62, "workmanship of the painter") { For = ["repaint proven"], Against = ["both sides alike"] }],
        PartyVerdict = Verdict.Provisional,
        LookAlikes = [new LookAlike("blistering", "flake_to_metal", ["prick"], "metal shows or not")],
        NextTests =
        [
            new NextTest("prick", 0.8, 4, 3, "water or air inside")
            {
                DisplayName = "Prick test", How = "one dome, hidden", Caution = "ask first", Consent = "with consent of the owner",
            },
        ],
        Contradictions = [new Contradiction("a", "b", "origin", "factory film above 300 µm is not credible") { Consequence = "the origin stays open" }],
        Remedy = new Remedy(
            [
                new RemedyStep("warm_dry", "warm it slowly", "stop when the domes are flat", "1 to 7 days", new HourRange(0.5, 2))
                {
                    HoursFor = "one panel", Materials = "lamp", SpendsUm = new FilmSpend(2, 4),
                    NotBefore = new DateOnly(2026, 5, 20), BetterFrom = new DateOnly(2026, 6, 1),
                },
                new RemedyStep("panel_refinish", "", "the bond is sound", null, new HourRange(3, 8)),
            ],
            [new MustNot("machine_polish", "opens the skin", "until_met")]),
        Timing = new Timing(TimingClass.Gradual, ["kept outdoors"], ["said to be of last week"]),
        Claim = new ClaimSheet
        {
            Dates = DatesFit.DoesNotFit,
            DatesText = "the dates do not fit",
            Questions = ["When did you first see it?"],
            SignsOfAge = "older: a broken edge",
        },
        FilmMap = [new FilmMapEntry("left door", 5, 40, 95, 310, FilmClass.Repaint, true, "uneven: a repaint is likely")],
        FilmBudget = new FilmBudget(40, 5, 20, "up to 5 µm in all"),
        HandOvers = [new HandOver("lead", "holds lead", "a licensed shop")],
        Cautions = ["keep the lamp away from glass"],
        CustomerText = "What we see: blistering. What it means: Water sits under the paint. How sure: not certain yet.",
        CareAdvice = ["dry after washing", "wax twice a year"],
        Provenance = new Provenance("1.2.3", "9.8.7", "aa11bb22", "2026.11.9", "5"),
    };

    /// <summary>A finding of evidence alone, with nothing that need not be there.</summary>
    public static Finding Bare() => new()
    {
        Name = "",
        CreateTime = new DateTimeOffset(2026, 5, 2, 9, 30, 0, TimeSpan.Zero),
        Verdict = Verdict.Inconclusive,
        Conditions = [new ConditionShare("chalking", 0.3, [])],
        Provenance = new Provenance("1.2.3", "9.8.7", "aa11bb22", "2026.11.9", "5"),
    };

    public static FindingSubject FullSubject() => new("door.jpg and 1 more", Full(), [Photo]);

    public static FindingSubject BareSubject() => new("case", Bare(), []);

    private static byte[] Jpeg()
    {
        var rgb = new byte[3 * WidthPx * HeightPx];
        for (int i = 0; i < rgb.Length; i++)
        {
            rgb[i] = (byte)(i / 3 % WidthPx / 20 % 2 * 120 + 60);
        }

        return PhotoEncoder.EncodeJpeg(rgb, WidthPx, HeightPx, 90);
    }
}
