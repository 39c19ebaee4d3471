using System.Net;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Imaging;
using CoatScan.V1;

namespace CoatScan.FunctionalTests.Server.Photos;

public sealed class SimilarPhotoTests : IAsyncLifetime
{
    private RunningServer _server = null!;

    public async ValueTask InitializeAsync() => _server = await RunningServer.StartAsync();

    public ValueTask DisposeAsync() => _server.DisposeAsync();

    [Fact]
    public async Task FindSimilarPhotos_finds_the_picture_stored_again_and_no_other()
    {
        var photo = await _server.Photos.SendAsync(Uploads.Of(Panels.FilmLoss));
        var again = await _server.Photos.SendAsync(Uploads.Of(StoredAgain(Panels.FilmLoss)));
        await _server.Photos.SendAsync(Uploads.Of(Panels.Sound));
        var finding = await _server.Findings.AnalyzePhotoAsync(new() { Photo = new() { Photo = again.Name } });

        var found = await _server.Photos.FindSimilarPhotosAsync(new() { Name = photo.Name });
        var json = await _server.Http.GetStringAsync(
            $"/v1/{photo.Name}:findSimilar?maxDistanceBits=6&maxResults=10", TestContext.Current.CancellationToken);

        Assert.True(found.Comparable);
        var similar = Assert.Single(found.Photos);
        Assert.Equal((again.Sha256, again.Name, false), (similar.Sha256, similar.Photo, similar.SameBytes));
        Assert.InRange(similar.DistanceBits, 0, 6);
        Assert.Equal([finding.Name], similar.Findings);
        Assert.Equal(again.CreateTime, similar.FirstSeenTime);
        Assert.Equal(found, FindSimilarPhotosResponse.Parser.ParseJson(json));
    }

    [Fact]
    public async Task FindSimilarPhotos_tells_the_findings_made_from_equal_bytes()
    {
        var photo = await _server.Photos.SendAsync(Uploads.Of(Panels.FilmLoss));
        var finding = await _server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(Panels.FilmLoss) });

        var similar = Assert.Single((await _server.Photos.FindSimilarPhotosAsync(new() { Name = photo.Name })).Photos);

        Assert.Equal((photo.Sha256, true, 0), (similar.Sha256, similar.SameBytes, similar.DistanceBits));
        Assert.Equal([finding.Name], similar.Findings);
    }

    [Fact]
    public async Task FindSimilarPhotos_flat_picture_is_not_compared()
    {
        var flat = PhotoEncoder.EncodePng([.. Enumerable.Repeat((byte)90, 3 * 64 * 64)], 64, 64);
        var alsoFlat = PhotoEncoder.EncodePng([.. Enumerable.Repeat((byte)91, 3 * 64 * 64)], 64, 64);
        var photo = await _server.Photos.SendAsync(Uploads.Of(flat));
        await _server.Photos.SendAsync(Uploads.Of(alsoFlat));

        var found = await _server.Photos.FindSimilarPhotosAsync(new() { Name = photo.Name });

        Assert.Equal("image/png", photo.MediaType);
        Assert.Empty(photo.PictureHash);
        Assert.False(found.Comparable);
        Assert.Empty(found.Photos);
    }

    [Fact]
    public async Task AnalyzePhoto_picture_that_came_before_is_noted_with_facts()
    {
        var first = await _server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(Panels.FilmLoss) });
        var other = await _server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(Panels.Sound) });
        var second = await _server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(StoredAgain(Panels.FilmLoss)) });
        var third = await _server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(Panels.FilmLoss) });

        Assert.Empty(first.Photos[0].SeenBefore);
        Assert.Empty(other.Photos[0].SeenBefore);
        var earlier = Assert.Single(second.Photos[0].SeenBefore);
        Assert.Equal(
            (first.Name, first.CreateTime, first.Photos[0].Sha256, false),
            (earlier.Finding, earlier.CreateTime, earlier.Sha256, earlier.SameBytes));
        Assert.Equal([first.Name, second.Name], third.Photos[0].SeenBefore.Select(one => one.Finding));
        Assert.True(third.Photos[0].SeenBefore[0].SameBytes);
        Assert.Equal(third, await _server.Findings.GetFindingAsync(new() { Name = third.Name }));

        await _server.Findings.DeleteFindingAsync(new() { Name = first.Name });
        await _server.Findings.DeleteFindingAsync(new() { Name = third.Name });
        var fourth = await _server.Findings.AnalyzePhotoAsync(new() { Photo = Panels.Input(Panels.FilmLoss) });
        Assert.Equal(second.Name, Assert.Single(fourth.Photos[0].SeenBefore).Finding);
    }

    [Fact]
    public async Task Batch_graded_by_several_workers_notes_each_picture_on_all_but_its_first_item()
    {
        await using var server = await RunningServer.StartAsync(("CoatScan:Batches:Workers", "3"));
        var items = new List<BatchItem>();
        for (var i = 0; i < 4; i++)
        {
            items.Add(BatchSteps.Item($"copy-{i}", $"car-{i}", await server.UploadAsync(BatchSteps.Variant(Panels.FilmLoss, i))));
        }

        items.Add(BatchSteps.Item("other", "car-9", await server.UploadAsync(Panels.Sound)));
        var batch = await server.OpenBatchAsync([.. items]);
        await server.Batches.StartBatchAsync(new() { Name = batch });
        var graded = (await server.WatchAsync(batch)).Select(one => one.Item).Where(item => item is not null).ToList();

        var findings = new Dictionary<string, Finding>();
        foreach (var item in graded)
        {
            findings[item.Key] = await server.Findings.GetFindingAsync(new() { Name = item.Finding });
        }

        Assert.Equal(5, findings.Count);
        Assert.Empty(findings["other"].Photos[0].SeenBefore);
        var copies = findings.Where(one => one.Key != "other").Select(one => one.Value.Photos[0].SeenBefore).ToList();
        Assert.Equal([0, 1, 2, 3], copies.Select(earlier => earlier.Count).Order());
        Assert.All(copies.SelectMany(earlier => earlier), one => Assert.Equal((false, 0), (one.SameBytes, one.DistanceBits)));
    }

    [Theory]
    [InlineData("maxDistanceBits=-1", "max_distance_bits", false)]
    [InlineData("maxDistanceBits=0", "", true)]
    [InlineData("maxDistanceBits=16", "", true)]
    [InlineData("maxDistanceBits=17", "max_distance_bits", false)]
    [InlineData("maxResults=-1", "max_results", false)]
    [InlineData("maxResults=0", "", true)]
    [InlineData("maxResults=2147483647", "", true)]
    public async Task FindSimilarPhotos_limits_in_grpc_and_json(string query, string field, bool allowed)
    {
        var photo = await _server.Photos.SendAsync(Uploads.Of(Panels.FilmLoss));
        var parts = query.Split('=');
        var request = FindSimilarPhotosRequest.Parser.ParseJson($$"""{"name":"{{photo.Name}}","{{parts[0]}}":{{parts[1]}}}""");
        if (allowed)
        {
            Assert.Empty((await _server.Photos.FindSimilarPhotosAsync(request)).Photos);
            return;
        }

        var status = await Errors.OfAsync(() => _server.Photos.FindSimilarPhotosAsync(request));
        var (reason, body) = await Errors.OfJsonAsync(
            _server.Http, HttpMethod.Get, $"/v1/{photo.Name}:findSimilar?{query}", null, HttpStatusCode.BadRequest);

        Assert.Equal(("VALUE_OUT_OF_RANGE", field), (status.Info().Reason, status.Field()));
        Assert.Equal(("VALUE_OUT_OF_RANGE", field), (reason, Errors.FieldOf(body)));
    }

    // Half the size, darker, and compressed harder: other bytes, the same picture.
    private static byte[] StoredAgain(byte[] jpeg)
    {
        using var decoded = new GuardedPhotoDecoder(new ImagingOptions()).Decode(jpeg, CancellationToken.None);
        var (width, height) = (decoded.StoredWidthPx / 2, decoded.StoredHeightPx / 2);
        var rgb = new byte[3 * width * height];
        for (var y = 0; y < height; y++)
        {
            var upper = decoded.StoredRow(2 * y);
            var lower = decoded.StoredRow((2 * y) + 1);
            for (var x = 0; x < 3 * width; x++)
            {
                var left = (2 * (x / 3) * 3) + (x % 3);
                rgb[(3 * width * y) + x] =
                    (byte)(((upper[left] + upper[left + 3] + lower[left] + lower[left + 3]) / 4 * 8 / 10) + 10);
            }
        }

        return PhotoEncoder.EncodeJpeg(rgb, width, height, 60);
    }
}
