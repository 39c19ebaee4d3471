using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using CoatScan.Client;
using CoatScan.V1;
using Grpc.Core;

namespace CoatScan.FuzzTests.Targets;

/// <summary>Page tokens of every list, changed as texts and, with their check sum made right again, as bytes.</summary>
internal sealed class PageTokenTarget : IFuzzTarget
{
    private const int CheckSumBytes = 4;

    private readonly FindingService.FindingServiceClient _findings;
    private readonly BatchService.BatchServiceClient _batches;
    private readonly KnowledgeService.KnowledgeServiceClient _knowledge;
    private readonly string _batch;

    private PageTokenTarget(ChannelBase channel, string batch, IReadOnlyList<byte[]> seeds)
    {
        _findings = new(channel);
        _batches = new(channel);
        _knowledge = new(channel);
        _batch = batch;
        Seeds = seeds;
    }

    /// <inheritdoc/>
    public string Name => "page-token";

    /// <inheritdoc/>
    public IEnumerable<byte[]> Seeds { get; }

    /// <summary>Makes lists of more than one page and takes their tokens.</summary>
    public static async Task<PageTokenTarget> StartAsync(ChannelBase channel)
    {
        var findings = new FindingService.FindingServiceClient(channel);
        var batches = new BatchService.BatchServiceClient(channel);
        for (var i = 0; i < 3; i++)
        {
            await findings.RankCausesAsync(new RankCausesRequest { Facts = new PanelFacts { Evidence = { "form.domes" } } });
            await batches.CreateBatchAsync(new CreateBatchRequest { BatchId = $"pages-{i}" });
        }

        string[] tokens =
        [
            (await findings.ListFindingsAsync(new ListFindingsRequest { PageSize = 1 })).NextPageToken,
            (await batches.ListBatchesAsync(new ListBatchesRequest { PageSize = 1 })).NextPageToken,
            "1",
        ];
        return new PageTokenTarget(channel, "batches/pages-0", [.. tokens.Select(Encoding.UTF8.GetBytes)]);
    }

    /// <inheritdoc/>
    public byte[] Mutate(Mutator mutator, IReadOnlyList<byte[]> corpus)
    {
        var token = mutator.Pick(corpus);
        var bytes = new byte[token.Length];
        if (mutator.Random.Next(2) == 0 || !Base64Url.IsValid(token) || !Base64Url.TryDecodeFromUtf8(token, bytes, out var length)
            || length <= CheckSumBytes)
        {
            return mutator.Change(token, corpus);
        }

        var body = mutator.Change(bytes[..(length - CheckSumBytes)], corpus);
        return Base64Url.EncodeToUtf8([.. body, .. SHA256.HashData(body).AsSpan(0, CheckSumBytes)]);
    }

    /// <inheritdoc/>
    public async Task<string> RunAsync(byte[] prepared)
    {
        var token = Encoding.UTF8.GetString(prepared);
        string[] outcomes =
        [
            await OutcomeAsync(async () => await _findings.ListFindingsAsync(new() { PageToken = token })),
            await OutcomeAsync(async () => await _batches.ListBatchesAsync(new() { PageToken = token })),
            await OutcomeAsync(async () => await _batches.ListBatchItemsAsync(new() { Parent = _batch, PageToken = token })),
            await OutcomeAsync(async () => await _batches.ListBatchVehiclesAsync(new() { Parent = _batch, PageToken = token })),
            await OutcomeAsync(async () => await _knowledge.ListConditionsAsync(new() { PageToken = token })),
        ];
        return string.Join("; ", outcomes);
    }

    private static async Task<string> OutcomeAsync(Func<Task> list)
    {
        try
        {
            await list();
            return "a page";
        }
        catch (RpcException e) when (CoatScanCallException.Of(e) is { Reason: "FIELD_INVALID", Field: "page_token" } refusal)
        {
            return TextShape.Of(refusal.Message)[..30];
        }
    }
}
