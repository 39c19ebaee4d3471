using System.Threading.Channels;
using CoatScan.Findings;
using CoatScan.Inspection;
using CoatScan.Service.Access;
using CoatScan.Service.Mapping;
using CoatScan.Service.Options;
using Grpc.Core;
using Microsoft.Extensions.Options;
using Wire = CoatScan.V1;

namespace CoatScan.Service.Endpoints;

/// <summary>
/// AnalyzePhotos: reads a bounded number of photos ahead, answers each as it is ready, and lets no bad photo end the
/// stream. HTTP/2 flow control holds the caller back while the bound is reached.
/// </summary>
internal sealed class PhotoStream(
    PanelInspector inspector,
    FindingRecorder recorder,
    AnalysisGate gate,
    ErrorInterceptor errors,
    RequestPhotos photos,
    TenantQuotas quotas,
    IOptions<AnalysisOptions> limits)
{
    /// <summary>Serves one stream to its end.</summary>
    public async Task RunAsync(
        IAsyncStreamReader<Wire.AnalyzePhotosRequest> requests,
        IServerStreamWriter<Wire.AnalyzePhotosResponse> responses,
        DateTime deadline,
        CancellationToken cancellationToken)
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        var answers = Channel.CreateBounded<Wire.AnalyzePhotosResponse>(limits.Value.StreamInFlight);
        var reading = ReadAsync(requests, answers.Writer, deadline, stop.Token);
        try
        {
            // One writer: a gRPC stream takes one message at a time.
            await foreach (var answer in answers.Reader.ReadAllAsync(stop.Token).ConfigureAwait(false))
            {
                await responses.WriteAsync(answer, stop.Token).ConfigureAwait(false);
            }
        }
        finally
        {
            await stop.CancelAsync().ConfigureAwait(false);
            await reading.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
    }

    private async Task ReadAsync(
        IAsyncStreamReader<Wire.AnalyzePhotosRequest> requests,
        ChannelWriter<Wire.AnalyzePhotosResponse> answers,
        DateTime deadline,
        CancellationToken cancellationToken)
    {
        using var slots = new SemaphoreSlim(limits.Value.StreamInFlight);
        var running = new List<Task>();
        Exception? failure = null;
        try
        {
            for (var index = 0L; ; index++)
            {
                await slots.WaitAsync(cancellationToken).ConfigureAwait(false);
                if (!await requests.MoveNext(cancellationToken).ConfigureAwait(false))
                {
                    break;
                }

                running.RemoveAll(task => task.IsCompletedSuccessfully);
                running.Add(AnswerAsync(requests.Current, index, answers, slots, deadline, cancellationToken));
            }
        }
        catch (Exception e)
        {
            failure = e;
        }

        await Task.WhenAll(running).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        answers.Complete(failure);
    }

    private async Task AnswerAsync(
        Wire.AnalyzePhotosRequest request,
        long index,
        ChannelWriter<Wire.AnalyzePhotosResponse> answers,
        SemaphoreSlim slots,
        DateTime deadline,
        CancellationToken cancellationToken)
    {
        try
        {
            var answer = new Wire.AnalyzePhotosResponse { Key = request.Key, Index = index };
            try
            {
                answer.Finding = await InspectAsync(request, deadline, cancellationToken).ConfigureAwait(false);
            }
            catch (Exception e) when (!cancellationToken.IsCancellationRequested)
            {
                answer.Error = errors.StatusOf(e, cancellationToken);
            }

            await answers.WriteAsync(answer, cancellationToken).ConfigureAwait(false);
        }
        finally
        {
            slots.Release();
        }
    }

    private Task<Wire.Finding> InspectAsync(
        Wire.AnalyzePhotosRequest request, DateTime deadline, CancellationToken cancellationToken)
    {
        quotas.CountCall();
        RequestMapping.ToKey(request.Key);
        var facts = RequestMapping.ToFacts(request.Facts);
        var zones = RequestMapping.ToZones(request.CompareZones, photoCount: 1);
        return recorder.AnswerAsync(
            key: null,
            validateOnly: false,
            new FindingInputs(facts, zones),
            async token =>
            {
                var photo = await photos.OpenAsync(request.Photo, "photo", token).ConfigureAwait(false);
                return await gate
                    .RunWhenFreeAsync(() => inspector.InspectPhotos([photo], facts, zones, token), PhotoDemand.Of([photo], deadline), token)
                    .ConfigureAwait(false);
            },
            cancellationToken);
    }
}
