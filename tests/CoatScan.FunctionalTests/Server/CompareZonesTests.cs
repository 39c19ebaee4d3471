using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Imaging;
using CoatScan.V1;

namespace CoatScan.FunctionalTests.Server;

public sealed class CompareZonesTests(SharedServer shared)
{
    private readonly FindingService.FindingServiceClient _findings = shared.Server.Findings;

    [Fact]
    public async Task AnalyzePhoto_two_zones_give_their_color_difference()
    {
        var finding = await _findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(TwoTone()), CompareZones = Zones() });

        var difference = Assert.Single(finding.Measurements, one => one.Metric == "color_difference_de00");
        Assert.True(difference.HasValue, difference.AbsentReason);
        Assert.True(difference.HasUncertainty);
        Assert.InRange(difference.Value, 5.0, 40.0);
        Assert.Equal(5, finding.Measurements.Count(one => one.Metric.StartsWith("color_difference_", StringComparison.Ordinal)));
    }

    [Fact]
    public async Task AnalyzePhoto_without_zones_says_nothing_of_them()
    {
        var finding = await _findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(TwoTone()) });

        Assert.DoesNotContain(finding.Measurements, one => one.Metric.StartsWith("color_difference_", StringComparison.Ordinal));
        Assert.Contains(finding.Measurements, one => one.Metric == "two_tone_de00");
    }

    [Fact]
    public async Task AnalyzePanel_zones_belong_to_their_photo()
    {
        var zones = Zones();
        zones.First.PhotoIndex = 1;
        zones.Second.PhotoIndex = 1;

        var finding = await _findings.AnalyzePanelAsync(new()
        {
            Photos = { Panels.Input(Panels.Sound), Panels.Input(TwoTone()) },
            CompareZones = zones,
        });

        var difference = Assert.Single(finding.Measurements, one => one.Metric == "color_difference_de00");
        Assert.Equal(1, difference.PhotoIndex);
    }

    [Fact]
    public async Task AnalyzePanel_zones_of_two_photos_are_refused_and_the_reason_says_why()
    {
        var zones = Zones();
        zones.Second.PhotoIndex = 1;

        var status = await Errors.OfAsync(() => _findings.AnalyzePanelAsync(new()
        {
            Photos = { Panels.Input(TwoTone()), Panels.Input(TwoTone()) },
            CompareZones = zones,
        }));

        Assert.Equal("FIELD_INVALID", status.Info().Reason);
        Assert.Equal("compare_zones.second.photo_index", status.Field());
        Assert.Contains("white balance change from photo to photo", status.Message, StringComparison.Ordinal);
        Assert.Contains("bronzing", status.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnalyzePhoto_zone_out_of_the_photo_is_refused_by_field_and_limit()
    {
        var zones = Zones();
        zones.Second.XPx = 700;

        var status = await Errors.OfAsync(() =>
            _findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(TwoTone()), CompareZones = zones }));

        Assert.Equal("compare_zones.second.x_px", status.Field());
        Assert.Contains("must be in [0, 600]; 700 came", status.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task AnalyzePhoto_missing_second_zone_is_refused()
    {
        var zones = Zones();
        zones.Second = null;

        var status = await Errors.OfAsync(() =>
            _findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(TwoTone()), CompareZones = zones }));

        Assert.Equal("compare_zones.second.width_px", status.Field());
    }

    private static ZonePair Zones() => new()
    {
        First = new() { XPx = 50, YPx = 100, WidthPx = 200, HeightPx = 200 },
        Second = new() { XPx = 500, YPx = 100, WidthPx = 200, HeightPx = 200 },
    };

    // Red paint, paler on the right, with some noise.
    private static byte[] TwoTone()
    {
        const int width = 800;
        const int height = 600;
        var random = new Random(2);
        var rgb = new byte[3 * width * height];
        for (var i = 0; i < width * height; i++)
        {
            var noise = random.Next(-3, 4);
            var (red, green, blue) = i % width < width / 2 ? (150, 40, 45) : (165, 85, 85);
            (rgb[3 * i], rgb[(3 * i) + 1], rgb[(3 * i) + 2]) = ((byte)(red + noise), (byte)(green + noise), (byte)(blue + noise));
        }

        return PhotoEncoder.EncodeJpeg(rgb, width, height, 90);
    }
}
