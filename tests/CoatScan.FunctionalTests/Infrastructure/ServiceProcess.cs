using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using CoatScan.Client;
using CoatScan.V1;
using Grpc.Net.Client;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary><c>coatscan serve</c> in a process of its own, to be killed.</summary>
internal sealed class ServiceProcess : IAsyncDisposable
{
    private readonly Process _process;
    private readonly ConcurrentQueue<string> _log = new();

    private ServiceProcess(Process process, int grpcPort, int httpPort)
    {
        _process = process;
        Channel = CoatScanChannel.ForAddress(new Uri($"http://127.0.0.1:{grpcPort}"));
        Http = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{httpPort}") };
    }

    public GrpcChannel Channel { get; }

    public HttpClient Http { get; }

    public PhotoService.PhotoServiceClient Photos => new(Channel);

    public FindingService.FindingServiceClient Findings => new(Channel);

    public BatchService.BatchServiceClient Batches => new(Channel);

    /// <summary>Starts the program on a data folder and returns when it is ready.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="prefix">A program to run it under, with its arguments.</param>
    public static Task<ServiceProcess> StartAsync(string folder, params string[] prefix) => StartAsync(folder, prefix, [], []);

    /// <summary>Starts the program on a data folder with further options.</summary>
    public static Task<ServiceProcess> StartWithAsync(string folder, params string[] options) => StartAsync(folder, [], options, []);

    /// <summary>Starts the program on a data folder with settings in its environment.</summary>
    public static Task<ServiceProcess> StartWithSettingsAsync(string folder, IEnumerable<(string Key, string Value)> settings) =>
        StartAsync(folder, [], [], settings);

    /// <summary>The first line of its log that holds a text; waits for it.</summary>
    public async Task<string> LogAsync(string text)
    {
        string? line;
        while ((line = _log.FirstOrDefault(one => one.Contains(text, StringComparison.Ordinal))) is null)
        {
            Assert.False(_process.HasExited, "The service ended.");
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }

        return line;
    }

    private static async Task<ServiceProcess> StartAsync(
        string folder, string[] prefix, string[] options, IEnumerable<(string Key, string Value)> settings)
    {
        var (grpcPort, httpPort) = FreePorts();
        string[] command =
        [
            .. prefix, "dotnet", Path.Combine(AppContext.BaseDirectory, "coatscan.dll"), "serve", "--data", folder,
            "--grpc-port", $"{grpcPort}", "--http-port", $"{httpPort}", .. options,
        ];
        var start = new ProcessStartInfo(command[0], command[1..]) { RedirectStandardOutput = true };
        foreach (var (key, value) in settings)
        {
            start.Environment[key.Replace(":", "__", StringComparison.Ordinal)] = value;
        }

        var process = Process.Start(start)!;
        var service = new ServiceProcess(process, grpcPort, httpPort);
        process.OutputDataReceived += (_, line) => service._log.Enqueue(line.Data ?? "");
        process.BeginOutputReadLine();
        while (!await service.IsReadyAsync())
        {
            Assert.False(process.HasExited, "The service ended.");
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }

        return service;
    }

    /// <summary>Kills it as <c>kill -9</c> does, with whatever it runs under.</summary>
    public async Task KillAsync()
    {
        _process.Kill(entireProcessTree: true);
        await _process.WaitForExitAsync(TestContext.Current.CancellationToken);
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            await KillAsync();
        }

        Channel.Dispose();
        Http.Dispose();
        _process.Dispose();
    }

    private static (int Grpc, int Http) FreePorts()
    {
        using var grpc = new TcpListener(IPAddress.Loopback, 0);
        using var http = new TcpListener(IPAddress.Loopback, 0);
        grpc.Start();
        http.Start();
        return (((IPEndPoint)grpc.LocalEndpoint).Port, ((IPEndPoint)http.LocalEndpoint).Port);
    }

    private async Task<bool> IsReadyAsync()
    {
        try
        {
            using var response = await Http.GetAsync("/health/ready", TestContext.Current.CancellationToken);
            return response.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }
}
