using System.Collections.Concurrent;
using System.Diagnostics.Metrics;
using CoatScan.Client;
using CoatScan.FuzzTests.Targets;
using CoatScan.Inspection;
using CoatScan.Service.Hosting;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace CoatScan.FuzzTests;

/// <summary>Every target, over one real service in this process.</summary>
internal sealed class FuzzTargets : IAsyncDisposable
{
    private static readonly string Models = Path.Combine(AppContext.BaseDirectory, "models");

    private readonly string _folder = Directory.CreateTempSubdirectory("coatscan-fuzz-").FullName;
    private readonly ConcurrentDictionary<string, double> _slowestStages = [];
    private readonly MeterListener _stages = new();
    private readonly WebApplication _application;
    private GrpcChannel? _channel;
    private HttpClient? _http;

    private FuzzTargets() => _application = CoatScanHost.Build(new CoatScanHostSettings
    {
        DataFolder = _folder,
        GrpcPort = 0,
        HttpPort = 0,
        Quiet = true,
    });

    /// <summary>Names of all targets.</summary>
    public static IReadOnlyList<string> Names { get; } = ["photo", "picture", "json", "proto", "page-token", "knowledge", "file"];

    /// <summary>Folder of kept inputs.</summary>
    public static string CorpusFolder { get; } = Path.Combine(AppContext.BaseDirectory, "corpus");

    /// <summary>The targets that were asked for.</summary>
    public IReadOnlyList<IFuzzTarget> All { get; private set; } = [];

    /// <summary>Longest time on the clock that a stage of a photo took, by name.</summary>
    public IReadOnlyDictionary<string, double> SlowestStages => _slowestStages;

    /// <summary>Starts <see cref="SlowestStages"/> again.</summary>
    public void ForgetStages() => _slowestStages.Clear();

    /// <summary>Starts the service and makes the targets.</summary>
    /// <param name="names">Which; null for all.</param>
    public static async Task<FuzzTargets> StartAsync(IReadOnlyCollection<string>? names)
    {
        var targets = new FuzzTargets();
        targets.ListenToStages();
        await targets._application.StartAsync();
        var addresses = targets._application.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.ToList();
        targets._channel = CoatScanChannel.ForAddress(new Uri(addresses[0]));
        targets._http = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, UseProxy = false }) { BaseAddress = new Uri(addresses[1]) };

        var photos = new PhotoTarget(targets._application.Services.GetRequiredService<PanelInspector>());
        targets.All =
        [
            .. ((IFuzzTarget[])[
                photos,
                new PictureTarget(photos),
                new JsonTarget(targets._http),
                new ProtoTarget(targets._channel),
                await PageTokenTarget.StartAsync(targets._channel),
                new KnowledgeTarget(Path.Combine(Models, "knowledge")),
                new FileTarget(Path.Combine(Models, "classifier", "panel-network.onnx")),
            ]).Where(target => names is null || names.Contains(target.Name)),
        ];
        return targets;
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        foreach (var target in All.OfType<IDisposable>())
        {
            target.Dispose();
        }

        _stages.Dispose();
        _http?.Dispose();
        _channel?.Dispose();
        await _application.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    private void ListenToStages()
    {
        _stages.InstrumentPublished = (instrument, listener) =>
        {
            if (instrument.Name == "coatscan.stage.duration")
            {
                listener.EnableMeasurementEvents(instrument);
            }
        };
        _stages.SetMeasurementEventCallback<double>((_, seconds, tags, _) =>
            _slowestStages.AddOrUpdate($"{tags[0].Value}", seconds, (_, slowest) => Math.Max(slowest, seconds)));
        _stages.Start();
    }
}
