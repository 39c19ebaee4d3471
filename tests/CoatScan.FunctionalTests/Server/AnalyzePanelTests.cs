using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;

namespace CoatScan.FunctionalTests.Server;

public sealed class AnalyzePanelTests(SharedServer shared)
{
    private readonly FindingService.FindingServiceClient _findings = shared.Server.Findings;

    [Fact]
    public async Task AnalyzePanel_two_photos_give_one_finding()
    {
        var request = new AnalyzePanelRequest
        {
            Photos = { Panels.Input(Panels.Sound, "far"), Panels.Input(Panels.FilmLoss, "near") },
            Facts = new PanelFacts { Panel = "hood" },
        };

        var finding = await _findings.AnalyzePanelAsync(request);

        Assert.Equal("hood", finding.Panel);
        Assert.Equal(["far", "near"], finding.Photos.Select(photo => photo.DisplayName));
        Assert.Equal("film_loss", finding.VisualClasses[0].VisualClass);
        Assert.Contains(finding.VisualClasses[0].Regions, region => region.PhotoIndex == 1);
        Assert.Equal([0, 1], finding.Measurements.Select(m => m.PhotoIndex).Distinct());
    }

    [Fact]
    public async Task AnalyzePanel_photo_of_something_else_is_named_and_not_counted()
    {
        var alone = await _findings.AnalyzePanelAsync(new AnalyzePanelRequest { Photos = { Panels.Input(Panels.FilmLoss) } });
        var both = await _findings.AnalyzePanelAsync(new AnalyzePanelRequest
        {
            Photos = { Panels.Input(Panels.FilmLoss), Panels.Input(Panels.NotAPanel) },
        });

        Assert.Equal(alone.Conditions[0].Condition, both.Conditions[0].Condition);
        Assert.Equal(alone.Conditions[0].Probability, both.Conditions[0].Probability, 1e-9);
        Assert.Contains(both.VerdictReasons, reason => reason.Contains("Photo 2", StringComparison.Ordinal));
    }

    [Fact]
    public async Task AnalyzePanel_nothing_wrong_is_sound_only_after_a_look_in_raking_light()
    {
        var once = await _findings.AnalyzePhotoAsync(new AnalyzePhotoRequest { Photo = Panels.Input(Panels.Sound) });
        var twice = await _findings.AnalyzePanelAsync(new AnalyzePanelRequest
        {
            Photos = { Panels.Input(Panels.Sound, "a"), Panels.Input(Panels.Sound, "b") },
        });
        var both = await _findings.AnalyzePanelAsync(new AnalyzePanelRequest
        {
            Photos = { Panels.Input(Panels.Sound), Panels.Input(Panels.SoundFromElsewhere) },
        });
        var raked = await _findings.AnalyzePanelAsync(new AnalyzePanelRequest
        {
            Photos = { Panels.Input(Panels.Sound), Panels.Input(Panels.SoundFromElsewhere) },
            Facts = new PanelFacts { Evidence = { "relief.flat" } },
        });

        Assert.Equal("conditions/sound", once.Conditions[0].Condition);
        Assert.Equal([Verdict.Provisional, Verdict.Provisional, Verdict.Provisional], [once.Verdict, twice.Verdict, both.Verdict]);
        Assert.Contains(both.VerdictReasons, reason => reason.Contains("raking light", StringComparison.Ordinal));
        Assert.Equal(Verdict.Sound, raked.Verdict);
        Assert.Contains(once.VerdictReasons, reason => reason.Contains("no proof", StringComparison.Ordinal));
    }

    [Fact]
    public async Task AnalyzePhoto_nothing_wrong_is_sound_when_a_reading_at_the_car_agrees()
    {
        var finding = await _findings.AnalyzePhotoAsync(new AnalyzePhotoRequest
        {
            Photo = Panels.Input(Panels.Sound),
            Facts = new PanelFacts { Evidence = { "relief.flat" }, Readings = new Readings { Gloss60 = 92 } },
        });

        Assert.Equal(Verdict.Sound, finding.Verdict);
    }

    [Fact]
    public async Task AnalyzePanel_one_bad_photo_is_named_by_its_index()
    {
        var request = new AnalyzePanelRequest
        {
            Photos = { Panels.Input(Panels.Sound), Panels.Input("no photo at all"u8.ToArray()) },
        };

        var status = await Errors.OfAsync(() => _findings.AnalyzePanelAsync(request));

        Assert.Equal("PHOTO_FORMAT_NOT_ALLOWED", status.Info().Reason);
        Assert.Equal("photos[1].content", status.Field());
    }
}
