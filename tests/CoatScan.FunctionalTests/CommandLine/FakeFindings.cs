using System.Collections.Concurrent;
using System.Globalization;
using CoatScan.V1;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using Status = Google.Rpc.Status;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary>Findings by script: the first word of a photo's bytes says what happens.</summary>
internal sealed class FakeFindings : FindingService.FindingServiceBase
{
    private readonly ConcurrentDictionary<string, int> _seen = new();
    private int _inFlight;

    /// <summary>Most photos that were read and not answered at one time.</summary>
    public int MostInFlight { get; private set; }

    /// <summary>What the last call said that the caller knows.</summary>
    public PanelFacts? LastFacts { get; private set; }

    /// <summary>The zones that the last call wanted compared.</summary>
    public ZonePair? LastZones { get; private set; }

    public override async Task AnalyzePhotos(
        IAsyncStreamReader<AnalyzePhotosRequest> requestStream,
        IServerStreamWriter<AnalyzePhotosResponse> responseStream,
        ServerCallContext context)
    {
        using var oneWriter = new SemaphoreSlim(1);
        var running = new List<Task>();
        while (await requestStream.MoveNext(context.CancellationToken))
        {
            var request = requestStream.Current;
            LastFacts = request.Facts;
            LastZones = request.CompareZones;
            var script = request.Photo.Content.ToStringUtf8();
            var times = _seen.AddOrUpdate(script, 1, (_, count) => count + 1);
            if ((script.StartsWith("break-once", StringComparison.Ordinal) && times == 1)
                || script.StartsWith("break-always", StringComparison.Ordinal))
            {
                throw new RpcException(new(StatusCode.Unavailable, "going down"));
            }

            if (script.StartsWith("poison", StringComparison.Ordinal))
            {
                throw new RpcException(new(StatusCode.Internal, "a bug"));
            }

            MostInFlight = Math.Max(MostInFlight, Interlocked.Increment(ref _inFlight));
            running.Add(AnswerAsync(request, script, times, responseStream, oneWriter, context.CancellationToken));
        }

        await Task.WhenAll(running);
    }

    public override Task<Finding> AnalyzePanel(AnalyzePanelRequest request, ServerCallContext context)
    {
        for (var index = 0; index < request.Photos.Count; index++)
        {
            if (request.Photos[index].Content.ToStringUtf8().StartsWith("refuse", StringComparison.Ordinal))
            {
                throw Refusal("PHOTO_TRUNCATED", string.Create(
                    CultureInfo.InvariantCulture, $"photos[{index}].content")).ToRpcException();
            }
        }

        LastZones = request.CompareZones;
        var finding = Find("", request.Facts);
        finding.Photos.Add(request.Photos.Select(photo => new PhotoReport { DisplayName = photo.DisplayName }));
        return Task.FromResult(finding);
    }

    public override Task<Finding> RankCauses(RankCausesRequest request, ServerCallContext context)
    {
        LastFacts = request.Facts;
        return request.Facts.Evidence.Concat(request.Facts.Statements.Select(one => one.Evidence)).Contains("form.unknown")
            ? throw Refusal("EVIDENCE_UNKNOWN", "facts.evidence[0]").ToRpcException()
            : Task.FromResult(Find("", request.Facts));
    }

    private static Finding Find(string photo, PanelFacts facts)
    {
        var finding = new Finding
        {
            Name = "findings/made-up",
            Verdict = Verdict.Provisional,
            Panel = facts?.Panel ?? "",
            ExternalRef = facts?.ExternalRef ?? "",
            Conditions =
            {
                new ConditionShare { Condition = "conditions/chalking", DisplayName = "Chalking", Probability = 0.71 },
            },
        };
        if (photo.Length > 0)
        {
            finding.Photos.Add(new PhotoReport { DisplayName = photo, WidthPx = 100, HeightPx = 100 });
        }

        return finding;
    }

    private static Status Refusal(string reason, string field) => new()
    {
        Code = (int)Code.InvalidArgument,
        Message = $"{field} is refused",
        Details =
        {
            Any.Pack(new ErrorInfo { Reason = reason, Domain = "coatscan.example" }),
            Any.Pack(new BadRequest { FieldViolations = { new BadRequest.Types.FieldViolation { Field = field } } }),
        },
    };

    private async Task AnswerAsync(
        AnalyzePhotosRequest request,
        string script,
        int times,
        IServerStreamWriter<AnalyzePhotosResponse> responses,
        SemaphoreSlim oneWriter,
        CancellationToken cancellationToken)
    {
        await Task.Delay(script.StartsWith("slow", StringComparison.Ordinal) ? 300 : 5, cancellationToken);
        var answer = new AnalyzePhotosResponse { Key = request.Key };
        if (script.StartsWith("refuse", StringComparison.Ordinal))
        {
            answer.Error = Refusal("PHOTO_TRUNCATED", "photo.content");
        }
        else if (script.StartsWith("busy-once", StringComparison.Ordinal) && times == 1)
        {
            answer.Error = new Status { Code = (int)Code.ResourceExhausted, Message = "busy" };
        }
        else
        {
            answer.Finding = Find(request.Photo.DisplayName, request.Facts);
        }

        Interlocked.Decrement(ref _inFlight);
        await oneWriter.WaitAsync(cancellationToken);
        try
        {
            await responses.WriteAsync(answer, cancellationToken);
        }
        finally
        {
            oneWriter.Release();
        }
    }
}
