using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Google.Protobuf;

namespace CoatScan.FunctionalTests.Server;

public sealed class AnalyzePhotoTests(SharedServer shared)
{
    private readonly FindingService.FindingServiceClient _findings = shared.Server.Findings;

    [Fact]
    public async Task AnalyzePhoto_panel_with_film_loss_names_what_shows_and_where()
    {
        var finding = await _findings.AnalyzePhotoAsync(Request(Panels.FilmLoss));

        Assert.NotEqual(Verdict.NotAssessable, finding.Verdict);
        Assert.Equal("film_loss", finding.VisualClasses[0].VisualClass);
        Assert.NotEmpty(finding.VisualClasses[0].Regions);
        Assert.Equal(1, finding.VisualClasses.Sum(share => share.Probability), 1e-9);
        Assert.Contains(finding.Conditions[0].Condition, new[] { "conditions/intercoat_peel", "conditions/flake_to_metal" });
        Assert.NotEmpty(finding.Remedy.Steps);
        Assert.NotEmpty(finding.Remedy.MustNot);
        Assert.NotEmpty(finding.NextTests);
        Assert.NotEmpty(finding.Cautions);
    }

    [Fact]
    public async Task AnalyzePhoto_of_more_spots_than_are_drawn_carries_the_largest_and_says_how_many_are_left_out()
    {
        var finding = await _findings.AnalyzePhotoAsync(Request(Panels.Specks(700)));

        var photo = finding.Photos[0];
        Assert.Equal(500, photo.Spots.Count);
        // Five in a hundred, as SpotSceneTests allows.
        Assert.InRange(photo.Spots.Count + photo.SpotsLeftOut, 665, 735);
        Assert.Equal(photo.Spots.Select(spot => spot.DiameterPx).OrderDescending(), photo.Spots.Select(spot => spot.DiameterPx));
        Assert.All(photo.Spots, spot => Assert.InRange(spot.DiameterPx, 4, 20));
    }

    [Fact]
    public async Task AnalyzePhoto_without_scale_gives_no_millimeters()
    {
        var finding = await _findings.AnalyzePhotoAsync(Request(Panels.FilmLoss));

        Assert.Contains(finding.Photos[0].Issues, issue => issue.Code == "NO_SCALE");
        Assert.False(finding.Photos[0].Scale.HasMmPerPx);
        Assert.DoesNotContain(finding.Measurements, m => m.HasValue && m.Unit.Contains("mm", StringComparison.Ordinal));
        Assert.All(finding.VisualClasses.SelectMany(v => v.Regions), region => Assert.False(region.HasWidthMm));
    }

    [Fact]
    public async Task AnalyzePhoto_with_scale_gives_millimeters()
    {
        var request = Request(Panels.FilmLoss);
        request.Facts = new PanelFacts { MmPerPx = 0.25 };

        var finding = await _findings.AnalyzePhotoAsync(request);

        Assert.Equal("CALLER", finding.Photos[0].Scale.Source);
        var region = finding.VisualClasses[0].Regions[0];
        Assert.Equal(0.25 * (region.EndXPx - region.StartXPx), region.WidthMm, 1e-9);
    }

    [Fact]
    public async Task AnalyzePhoto_with_scale_and_distances_gives_slopes_in_mrad()
    {
        var request = Request(Panels.FilmLoss);
        request.Facts = new PanelFacts { MmPerPx = 0.25, ReflectedDistanceMm = 300, CameraDistanceMm = 500 };

        var finding = await _findings.AnalyzePhotoAsync(request);

        var bands = finding.Measurements.Where(m => m.Metric.StartsWith("waviness_edge_", StringComparison.Ordinal)
            && m.Metric.Contains("_to_", StringComparison.Ordinal)).ToList();
        Assert.NotEmpty(bands);
        Assert.All(bands, band => Assert.Equal("mrad", band.Unit));
    }

    [Fact]
    public async Task AnalyzePhoto_every_measurement_has_a_value_or_a_reason()
    {
        var finding = await _findings.AnalyzePhotoAsync(Request(Panels.Sound));

        Assert.NotEmpty(finding.Measurements);
        Assert.All(finding.Measurements, m =>
        {
            Assert.NotEqual(m.HasValue, m.HasAbsentReason);
            Assert.True(!m.HasValue || double.IsFinite(m.Value));
            Assert.True(!m.HasAbsentReason || m.AbsentReason.Length > 5);
        });
    }

    // Pages, fruit, sky, faces and the like; what a seed paints is drawn from the renderer's catalog of scenes.
    [Fact]
    public async Task AnalyzePhoto_scenes_that_are_no_panel_are_rarely_assessed_and_never_decided()
    {
        var verdicts = new List<Verdict>();
        for (var seed = 90_011UL; seed < 90_035; seed++)
        {
            verdicts.Add((await _findings.AnalyzePhotoAsync(Request(Panels.OtherScene(seed)))).Verdict);
        }

        var assessed = string.Join(", ", verdicts.Where(verdict => verdict != Verdict.NotAssessable));
        Assert.All(verdicts, verdict => Assert.Contains(verdict, new[] { Verdict.NotAssessable, Verdict.Inconclusive }));
        Assert.True(verdicts.Count(verdict => verdict == Verdict.NotAssessable) >= 20, $"Assessed: {assessed}");
    }

    [Fact]
    public async Task AnalyzePhoto_no_panel_is_not_assessable_and_concludes_nothing()
    {
        var finding = await _findings.AnalyzePhotoAsync(Request(Panels.NotAPanel));

        Assert.Equal(Verdict.NotAssessable, finding.Verdict);
        Assert.Empty(finding.Conditions);
        Assert.Empty(finding.Causes);
        Assert.Empty(finding.Remedy.Steps);
        Assert.All(finding.Measurements, m => Assert.False(m.HasValue));
        Assert.Contains(finding.NextTests, test => test.Test == "photo_context");
    }

    // A wallpaper has no fault either: one smooth picture must never be enough to call a panel sound.
    [Fact]
    public async Task AnalyzePhoto_smooth_gradient_is_never_sound()
    {
        var finding = await _findings.AnalyzePhotoAsync(Request(Panels.Gradient()));

        Assert.NotEqual(Verdict.Sound, finding.Verdict);
        Assert.NotEqual(Verdict.Conclusive, finding.Verdict);
    }

    [Fact]
    public async Task AnalyzePhoto_same_input_gives_the_same_finding_byte_for_byte()
    {
        var first = await _findings.AnalyzePhotoAsync(Request(Panels.FilmLoss));
        var second = await _findings.AnalyzePhotoAsync(Request(Panels.FilmLoss));

        Assert.NotEqual(first.Name, second.Name);
        second.Name = first.Name;
        second.CreateTime = first.CreateTime;
        first.Photos[0].SeenBefore.Clear();
        second.Photos[0].SeenBefore.Clear();
        Assert.Equal(first.ToByteArray(), second.ToByteArray());
    }

    [Fact]
    public async Task AnalyzePhoto_evidence_of_the_caller_replaces_the_sign_of_the_photo()
    {
        var request = Request(Panels.FilmLoss);
        request.Facts = new PanelFacts
        {
            Evidence = { "form.rings", "relief.sunk", "size.1_to_5_mm", "test.mild_acid.no_effect", "test.loupe.etched_hollow" },
        };

        var finding = await _findings.AnalyzePhotoAsync(request);

        Assert.DoesNotContain(finding.Evidence, item => item.Origin == "PHOTO");
        Assert.Equal("conditions/water_ring_etch", finding.Conditions[0].Condition);
    }

    [Fact]
    public async Task AnalyzePhoto_weights_of_a_condition_sum_to_its_share()
    {
        var finding = await _findings.AnalyzePhotoAsync(Request(Panels.FilmLoss));

        var scores = finding.Conditions.Select(c => Math.Exp(c.Evidence.Sum(e => e.WeightLog))).ToList();
        Assert.All(
            finding.Conditions.Zip(scores),
            pair => Assert.Equal(pair.Second / scores.Sum(), pair.First.Probability, 1e-6));
    }

    [Fact]
    public async Task AnalyzePhoto_validate_only_stores_nothing()
    {
        var request = Request(Panels.Sound);
        request.ValidateOnly = true;
        request.Facts = new PanelFacts { ExternalRef = "validate-only" };

        var finding = await _findings.AnalyzePhotoAsync(request);

        Assert.Equal("", finding.Name);
        var list = await _findings.ListFindingsAsync(new ListFindingsRequest { PageSize = 500 });
        Assert.DoesNotContain(list.Findings, stored => stored.ExternalRef == "validate-only");
    }

    [Fact]
    public async Task AnalyzePhoto_repeated_request_id_gives_the_stored_finding()
    {
        var request = Request(Panels.Sound);
        request.RequestId = "0d9f2f0a-6f0e-4c8e-9f53-4d5b0f6b1a01";

        var calls = Enumerable.Range(0, 6).Select(_ => _findings.AnalyzePhotoAsync(request).ResponseAsync);
        var findings = await Task.WhenAll(calls);

        Assert.Single(findings.Select(finding => finding.Name).Distinct());
    }

    [Fact]
    public async Task AnalyzePhoto_keeps_no_place_and_no_owner()
    {
        var finding = await _findings.AnalyzePhotoAsync(Request(Panels.Sound, "left door.jpg"));

        Assert.Equal("left door.jpg", finding.Photos[0].DisplayName);
        Assert.Equal(64, finding.Photos[0].Sha256.Length);
        Assert.False(finding.Photos[0].HasCaptureTime);
    }

    [Fact]
    public async Task AnalyzePhoto_provenance_is_complete()
    {
        var finding = await _findings.AnalyzePhotoAsync(Request(Panels.Sound));
        var info = await shared.Server.Knowledge.GetServerInfoAsync(new GetServerInfoRequest());

        Assert.Equal(info.ModelSha256, finding.Provenance.ModelSha256);
        Assert.Equal(64, info.ModelSha256.Length);
        Assert.Equal(info.KnowledgeVersion, finding.Provenance.KnowledgeVersion);
        Assert.Equal(info.MetricSetVersion, finding.Provenance.MetricSetVersion);
        Assert.Equal(info.ServiceVersion, finding.Provenance.ServiceVersion);
    }

    private static AnalyzePhotoRequest Request(byte[] photo, string name = "") =>
        new() { Photo = Panels.Input(photo, name) };
}
