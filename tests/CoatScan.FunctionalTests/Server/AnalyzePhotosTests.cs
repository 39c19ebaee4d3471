using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.FunctionalTests.Server;

public sealed class AnalyzePhotosTests(SharedServer shared)
{
    private readonly FindingService.FindingServiceClient _findings = shared.Server.Findings;

    [Fact]
    public async Task AnalyzePhotos_bad_photos_in_between_answer_and_do_not_end_the_stream()
    {
        byte[][] photos =
        [
            Panels.Sound, [], Panels.FilmLoss, "text"u8.ToArray(), Panels.Sound[..(Panels.Sound.Length / 2)], Panels.Sound,
        ];
        var token = TestContext.Current.CancellationToken;
        using var call = _findings.AnalyzePhotos(cancellationToken: token);
        var answers = new List<AnalyzePhotosResponse>();
        var reading = ReadAsync(call, answers, token);
        for (var i = 0; i < photos.Length; i++)
        {
            await call.RequestStream.WriteAsync(
                new AnalyzePhotosRequest { Key = $"key {i}", Photo = Panels.Input(photos[i]) },
                token);
        }

        await call.RequestStream.CompleteAsync();
        await reading;

        Assert.Equal(photos.Length, answers.Count);
        var byIndex = answers.OrderBy(answer => answer.Index).ToList();
        Assert.Equal(Enumerable.Range(0, photos.Length).Select(i => $"key {i}"), byIndex.Select(answer => answer.Key));
        Assert.Equal(
            ["finding", "PHOTO_UNREADABLE", "finding", "PHOTO_FORMAT_NOT_ALLOWED", "PHOTO_TRUNCATED", "finding"],
            byIndex.Select(answer => answer.Error is { } error ? error.Info().Reason : "finding"));
        Assert.All(byIndex.Where(answer => answer.Finding is not null), answer => Assert.NotEmpty(answer.Finding.Name));
    }

    [Fact]
    public async Task AnalyzePhotos_answers_come_before_the_stream_is_closed()
    {
        var token = TestContext.Current.CancellationToken;
        using var call = _findings.AnalyzePhotos(cancellationToken: token);
        await call.RequestStream.WriteAsync(new AnalyzePhotosRequest { Photo = Panels.Input(Panels.Sound) }, token);

        Assert.True(await call.ResponseStream.MoveNext(token));
        Assert.Equal(0, call.ResponseStream.Current.Index);
        await call.RequestStream.CompleteAsync();
        Assert.False(await call.ResponseStream.MoveNext(token));
    }

    [Fact]
    public async Task AnalyzePhotos_server_reads_on_only_as_photos_finish()
    {
        // Far more than may be in flight, from a caller that reads no answer: the server must hold it back.
        const int count = 200;
        await using var server = await RunningServer.StartAsync(("CoatScan:Analysis:StreamInFlight", "2"));
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        using var call = server.Findings.AnalyzePhotos(cancellationToken: stop.Token);
        var written = 0;
        var writing = Task.Run(
            async () =>
            {
                for (; written < count; written++)
                {
                    await call.RequestStream.WriteAsync(
                        new AnalyzePhotosRequest { Photo = Panels.Input(new byte[256 * 1024]) },
                        stop.Token);
                }
            },
            stop.Token);

        // Once the answers fill the window, writing stands still well short of the end.
        var before = -1;
        while (before != written)
        {
            before = written;
            await Task.Delay(700, stop.Token);
        }

        Assert.InRange(written, 1, count - 1);
        await stop.CancelAsync();
        await writing.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing | ConfigureAwaitOptions.ContinueOnCapturedContext);
    }

    private static async Task ReadAsync(
        AsyncDuplexStreamingCall<AnalyzePhotosRequest, AnalyzePhotosResponse> call,
        List<AnalyzePhotosResponse> answers,
        CancellationToken token)
    {
        await foreach (var answer in call.ResponseStream.ReadAllAsync(token))
        {
            answers.Add(answer);
        }
    }
}
