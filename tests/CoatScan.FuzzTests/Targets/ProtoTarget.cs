using CoatScan.Client;
using CoatScan.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;

namespace CoatScan.FuzzTests.Targets;

/// <summary>Messages to every rpc: one byte says which, the rest is the message.</summary>
internal sealed class ProtoTarget(ChannelBase channel) : IFuzzTarget
{
    private static readonly Marshaller<byte[]> Raw = Marshallers.Create(bytes => bytes, bytes => bytes);

    // A watched batch that nobody starts is watched for ever, and a stream that nobody ends is open for ever.
    private static readonly TimeSpan LongestWatch = TimeSpan.FromMilliseconds(300);
    private static readonly TimeSpan LongestCall = TimeSpan.FromSeconds(60);

    private static readonly MethodDescriptor[] Rpcs =
    [
        .. new[]
        {
            FindingService.Descriptor, PhotoService.Descriptor, BatchService.Descriptor, KnowledgeService.Descriptor, SprayDayService.Descriptor,
        }.SelectMany(service => service.Methods),
    ];

    /// <inheritdoc/>
    public string Name => "proto";

    /// <inheritdoc/>
    public IEnumerable<byte[]> Seeds
    {
        get
        {
            var facts = new PanelFacts
            {
                Evidence = { "form.rings" },
                MmPerPx = 0.2,
                AppliedOn = "2024-02-29",
                Statements = { new Statement { Evidence = "form.domes", SaidBy = "owner" } },
                Readings = new Readings { FilmUm = { 118, 125 }, Gloss60 = 88 },
            };
            var photo = new PhotoInput { Content = ByteString.CopyFrom(0xFF, 0xD8, 0xFF), Sha256 = new string('0', 64), DisplayName = "a" };
            IMessage[] messages =
            [
                new RankCausesRequest { Facts = facts, ValidateOnly = true },
                new AnalyzePhotoRequest { Facts = facts, Photo = photo },
                new AnalyzePanelRequest { Photos = { photo, new PhotoInput { Photo = "photos/" + new string('0', 64) } } },
                new AnalyzePhotosRequest { Key = "a", Photo = photo },
                new ListFindingsRequest { PageSize = 2, PageToken = "AQ" },
                new GetFindingRequest { Name = "findings/0199" },
                new UploadPhotoRequest { Metadata = new PhotoMetadata { Sha256 = new string('0', 64), SizeBytes = 10 } },
                new CreateBatchRequest { BatchId = "lot-2", Batch = new Batch { DisplayName = "x" } },
                new AddBatchItemsRequest { Name = "batches/lot-2", Items = { new BatchItem { Key = "a", VehicleRef = "v", Facts = facts } } },
                new WatchBatchRequest { Name = "batches/lot-2", StartSequence = 1 },
                new ListBatchItemsRequest { Parent = "batches/lot-2", PageSize = 3, States = { BatchItem.Types.State.Failed } },
                new PlanSprayDayRequest { AirC = 24, HumidityPercent = 60, Finish = "basecoat_clearcoat", Job = "one_panel" },
            ];
            foreach (var message in messages)
            {
                var rpc = Array.FindIndex(Rpcs, one => one.InputType.FullName == message.Descriptor.FullName);
                yield return [(byte)rpc, .. message.ToByteArray()];
            }

            for (var rpc = 0; rpc < Rpcs.Length; rpc++)
            {
                yield return [(byte)rpc];
            }
        }
    }

    /// <inheritdoc/>
    public byte[] Mutate(Mutator mutator, IReadOnlyList<byte[]> corpus)
    {
        var changed = mutator.Change(mutator.Pick(corpus), corpus, firstByte: 1);
        changed[0] = mutator.Random.Next(8) == 0 ? (byte)mutator.Random.Next(Rpcs.Length) : changed[0];
        return changed;
    }

    /// <inheritdoc/>
    public async Task<string> RunAsync(byte[] prepared)
    {
        var rpc = Rpcs[prepared.Length == 0 ? 0 : prepared[0] % Rpcs.Length];
        var isWatch = rpc.Name == "WatchBatch";
        var method = new Method<byte[], byte[]>(MethodType.ServerStreaming, rpc.Service.FullName, rpc.Name, Raw, Raw);
        using var stop = new CancellationTokenSource(isWatch ? LongestWatch : LongestCall);
        using var call = channel.CreateCallInvoker().AsyncServerStreamingCall(
            method, null, new CallOptions(cancellationToken: stop.Token), prepared.Length == 0 ? [] : prepared[1..]);
        try
        {
            while (await call.ResponseStream.MoveNext(stop.Token))
            {
            }

            return $"{rpc.Name} OK";
        }
        catch (RpcException e) when (isWatch && e.StatusCode == StatusCode.Cancelled)
        {
            return $"{rpc.Name} watched";
        }
        catch (RpcException e) when (DeclaredReasons.Has(CoatScanCallException.Of(e).Reason))
        {
            return $"{rpc.Name} {CoatScanCallException.Of(e).Reason} {TextShape.Of(e.Status.Detail)}";
        }
        catch (RpcException e)
        {
            throw new UndeclaredOutcomeException($"{rpc.Name} {e.StatusCode} without a declared reason: {TextShape.Of(e.Status.Detail)}");
        }
    }
}
