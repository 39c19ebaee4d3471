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
