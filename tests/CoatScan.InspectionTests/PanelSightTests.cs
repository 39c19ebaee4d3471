using CoatScan.Classification;
using CoatScan.Findings;
using CoatScan.Inspection;
using CoatScan.Metrics;

namespace CoatScan.InspectionTests;

public sealed class PanelSightTests
{
    private static readonly ClassifierInfo Classifier = new(
        "1",
        "0",
        ["sound", "chips", "not_a_panel"],
        new Dictionary<string, double> { ["sound"] = 0.4, ["chips"] = 0.4, ["not_a_panel"] = 0.2 },
        0.9,
        0.9,
        new Dictionary<string, ClassCheck>());

    [Fact]
    public void Join_one_photo_keeps_its_shares()
    {
        var sight = PanelSight.Join([Look(sound: 0.7, chips: 0.2)], Classifier);

        Assert.Equal(["sound", "chips", "not_a_panel"], sight.Shares.Select(share => share.VisualClass));
        Assert.Equal([0.7, 0.2, 0.1], sight.Shares.Select(share => Math.Round(share.Probability, 12)));
        Assert.NotNull(sight.Evidence);
        Assert.Empty(sight.Reasons);
    }

    [Theory]
    [InlineData("a", "b", 2)]
    [InlineData("a", "a", 1)]
    public void Join_counts_different_photos(string first, string second, int count)
    {
        var looks = new[] { first, second }.Select(sha256 =>
        {
            var look = Look(sound: 0.8, chips: 0.1);
            return look with { Report = look.Report with { Sha256 = sha256 } };
        });

        Assert.Equal(count, PanelSight.Join([.. looks], Classifier).Evidence!.PhotoCount);
    }

    [Fact]
    public void Join_fault_in_one_of_two_photos_is_not_outvoted()
    {
        var sight = PanelSight.Join([Look(sound: 0.8, chips: 0.1), Look(sound: 0.1, chips: 0.8)], Classifier);

        // Chips take 0.8, sound 0.1, not_a_panel 0.1; together 1.
        Assert.Equal("chips", sight.Shares[0].VisualClass);
        Assert.Equal(0.8, sight.Shares[0].Probability, 1e-12);
        Assert.Equal(1, sight.Shares.Sum(share => share.Probability), 1e-12);
    }

    [Fact]
    public void Join_keeps_a_fault_open_that_one_photo_cannot_exclude_and_sound_only_if_none_can()
    {
        var open = Look(sound: 0.5, chips: 0.4);
        var closed = Look(sound: 0.8, chips: 0.1);
        PhotoLook[] looks = [Marked(open, "sound", "chips"), Marked(closed, "sound")];

        var sight = PanelSight.Join(looks, Classifier);
        Assert.Equal(["chips", "sound"], sight.Shares.Where(share => share.Possible).Select(share => share.VisualClass).Order());
        Assert.Equal(0.9, sight.SetCoverage);

        var without = PanelSight.Join([Marked(Look(sound: 0.1, chips: 0.8), "chips"), Marked(closed, "sound")], Classifier);
        Assert.Equal(["chips"], without.Shares.Where(share => share.Possible).Select(share => share.VisualClass));

        static PhotoLook Marked(PhotoLook look, params string[] possible) => look with
        {
            Reading = look.Reading with
            {
                Shares = [.. look.Reading.Shares.Select(share => share with { Possible = possible.Contains(share.VisualClass) })],
            },
        };
    }

    [Fact]
    public void Join_says_a_second_fault_where_one_photo_does_unless_it_leads()
    {
        var look = Look(sound: 0.6, chips: 0.3);
        look = look with
        {
            Reading = look.Reading with
            {
                Shares = [.. look.Reading.Shares.Select(share => share.VisualClass == "chips" ? share with { BesideProbability = 0.7 } : share)],
            },
        };

        Assert.Equal(0.7, PanelSight.Join([look], Classifier).Shares.Single(share => share.VisualClass == "chips").BesideProbability);
        var leading = PanelSight.Join([look, Look(sound: 0.1, chips: 0.8)], Classifier).Shares[0];
        Assert.Equal(("chips", (double?)null), (leading.VisualClass, leading.BesideProbability));
    }

    [Theory]
    [InlineData(PhotoIssueCode.Blurred, false)]
    [InlineData(PhotoIssueCode.TooDark, false)]
    [InlineData(PhotoIssueCode.LowResolution, false)]
    [InlineData(PhotoIssueCode.ScreenPhoto, false)]
    [InlineData(PhotoIssueCode.Glare, true)]
    [InlineData(PhotoIssueCode.NoScale, true)]
    public void Join_too_poor_photo_does_not_speak(PhotoIssueCode issue, bool speaks)
    {
        var sight = PanelSight.Join([Look(sound: 0.1, chips: 0.8, issue: issue)], Classifier);

        Assert.Equal(speaks, sight.Evidence is not null);
        Assert.Equal(speaks, !sight.Reasons.Any(reason => reason.Contains("too poor", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData(PhotoIssueCode.Glare, 1)]
    [InlineData(PhotoIssueCode.Noisy, 1)]
    [InlineData(PhotoIssueCode.NoScale, 0)]
    public void Join_limited_photo_doubts_that_nothing_is_wrong(PhotoIssueCode issue, int doubts)
    {
        var sight = PanelSight.Join([Look(sound: 0.9, chips: 0.05), Look(sound: 0.9, chips: 0.05, issue: issue)], Classifier);

        Assert.Equal(doubts, sight.Evidence!.SoundDoubts.Count);
        Assert.All(sight.Evidence.SoundDoubts, doubt => Assert.Equal("Photo 2: detail. limits.", doubt));
    }

    [Fact]
    public void Join_measurement_that_a_limit_affects_is_absent_with_it()
    {
        var noisy = Assert.Single(PanelSight.Join([Look(0.1, 0.8, issue: PhotoIssueCode.Noisy)], Classifier).Measurements);
        var clear = Assert.Single(PanelSight.Join([Look(0.1, 0.8, issue: PhotoIssueCode.Glare)], Classifier).Measurements);

        Assert.Equal("detail", noisy.AbsentReason);
        Assert.Equal(3, clear.Value);
    }

    [Fact]
    public void Join_reason_of_a_poor_photo_is_one_sentence()
    {
        var sight = PanelSight.Join([Look(sound: 0.1, chips: 0.8, issue: PhotoIssueCode.Blurred)], Classifier);

        var reason = Assert.Single(sight.Reasons);
        Assert.EndsWith("not counted: detail.", reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Join_photo_of_something_else_measures_nothing_and_says_so()
    {
        var sight = PanelSight.Join([Look(sound: 0.1, chips: 0.1, isPanel: false)], Classifier);

        Assert.True(sight.ShowsNoPanel);
        Assert.Null(sight.Evidence);
        var measurement = Assert.Single(sight.Measurements);
        Assert.Null(measurement.Value);
        Assert.NotNull(measurement.AbsentReason);
        Assert.Contains("Photo 1", Assert.Single(sight.Reasons), StringComparison.Ordinal);
    }

    [Fact]
    public void Join_regions_carry_photo_and_millimeters()
    {
        var sight = PanelSight.Join([Look(sound: 0.8, chips: 0.1), Look(sound: 0.1, chips: 0.8, mmPerPx: 0.5)], Classifier);

        var region = Assert.Single(sight.Shares[0].Regions, region => region.PhotoIndex == 1);
        Assert.Equal(50, region.WidthMm);
        Assert.Equal(25, region.HeightMm);
        Assert.Null(sight.Shares[0].Regions[0].WidthMm);
        // Two regions of 100 x 50 px in two photos of 200 x 100 px.
        Assert.Equal(0.25, sight.Shares[0].AreaFraction, 1e-12);
    }

    [Fact]
    public void Join_region_on_a_tilted_panel_is_measured_at_its_place()
    {
        // Tilted by 45 degrees about the y axis through (0, 0), seen by a camera with a focal length of 1000 px from 400 mm.
        var tilted = new PlaneScale([Math.Sqrt(2), 0, 0, 0, 1, 0, -1, 0], new double[8, 8], (0, 0), 1000, 400, 0);

        var sight = PanelSight.Join([Look(sound: 0.1, chips: 0.8) with { Scale = tilted }], Classifier);

        var region = sight.Shares[0].Regions[0];
        double Along(double x) => 400 * Math.Sqrt(2) * x / (1000 - x);
        double Across(double x) => 400 * 35 / (1000 - x);
        double along = Along(110) - Along(10);
        double across = Across(110) - Across(10);
        Assert.Equal(Math.Sqrt((along * along) + (across * across)), region.WidthMm!.Value, 1e-9);
        Assert.Equal(400 * 50 / (1000 - 60.0), region.HeightMm!.Value, 1e-9);
    }

    [Fact]
    public void Join_regions_that_overlap_cover_their_common_area_once()
    {
        var look = Look(sound: 0.1, chips: 0.8);
        var chips = look.Reading.Shares.Single(share => share.VisualClass == "chips");
        Region[] regions =
        [
            new(0, 0, 0, 120, 100),
            new(0, 80, 0, 200, 100),
        ];
        look = look with
        {
            Reading = look.Reading with
            {
                Shares = [.. look.Reading.Shares.Where(share => share != chips), chips with { Regions = regions }],
            },
        };

        Assert.Equal(1, PanelSight.Join([look], Classifier).Shares[0].AreaFraction, 1e-12);
    }

    [Fact]
    public void Join_tells_which_photos_show_a_class()
    {
        var sight = PanelSight.Join(
            [
                Look(sound: 0.8, chips: 0.1),
                Look(sound: 0.1, chips: 0.8),
                Look(sound: 0.3, chips: 0.5),
                Look(sound: 0.0, chips: 0.9, issue: PhotoIssueCode.Blurred),
            ],
            Classifier);

        // Photo 4 may not speak; photo 3 gives at least half of what photo 2 gives.
        Assert.Equal([2, 3], sight.Evidence!.PhotosOf["chips"]);
        Assert.Equal([1], sight.Evidence.PhotosOf["sound"]);
    }

    [Fact]
    public void Join_unfamiliar_photo_makes_the_evidence_unfamiliar()
    {
        var sight = PanelSight.Join(
            [Look(sound: 0.8, chips: 0.1), Look(sound: 0.8, chips: 0.1, familiar: false)], Classifier);

        Assert.False(sight.Evidence!.Familiar);
    }

    // What a rating may rest on: only photos that may speak, each under its own number.
    [Fact]
    public void Join_measurements_of_a_photo_that_may_not_speak_are_not_rated()
    {
        var sight = PanelSight.Join(
            [Look(sound: 0.8, chips: 0.1, issue: PhotoIssueCode.Blurred), Look(sound: 0.8, chips: 0.1)], Classifier);

        Assert.Equal(2, sight.Measurements.Count);
        Assert.Equal(1, Assert.Single(sight.SpeakingMeasurements).PhotoIndex);
    }

    private static PhotoLook Look(
        double sound,
        double chips,
        bool isPanel = true,
        bool familiar = true,
        double? mmPerPx = null,
        PhotoIssueCode? issue = null) => new(
        new PhotoReport
        {
            Sha256 = new string('0', 64),
            WidthPx = 200,
            HeightPx = 100,
            Issues = issue is { } code ? [new PhotoIssue(code, "detail.", "fix", "limits.")] : [],
            Scale = mmPerPx is null ? PhotoScale.Unknown : new PhotoScale(ScaleSource.Caller, mmPerPx),
        },
        new PanelMeasurements { Measurements = [Measurement.Of("spot_count", 3, "1")], Spots = [] },
        new VisualReading
        {
            Shares =
            [
                new VisualClassShare { VisualClass = "sound", Probability = sound },
                new VisualClassShare
                {
                    VisualClass = "chips",
                    Probability = chips,
                    Regions = [new Region(0, 10, 10, 110, 60)],
                },
                new VisualClassShare { VisualClass = "not_a_panel", Probability = 1 - sound - chips },
            ],
            IsPanel = isPanel,
            Familiar = familiar,
        })
        {
            Scale = mmPerPx is { } mm ? PlaneScale.Constant(mm, 0.1) : null,
        };
}
