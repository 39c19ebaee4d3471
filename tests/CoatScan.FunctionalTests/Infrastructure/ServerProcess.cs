using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Grpc.Net.Client;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>The program <c>coatscan</c> in a process of its own, to be killed as nothing else can be.</summary>
internal sealed class ServerProcess : IAsyncDisposable
{
    private readonly string _data;
    private readonly int _grpcPort = FreePort();
    private readonly int _httpPort = FreePort();
    private Process? _process;

    public ServerProcess(string data)
    {
        _data = data;
        Channel = GrpcChannel.ForAddress($"http://127.0.0.1:{_grpcPort}");
    }

    public GrpcChannel Channel { get; }

    public V1.BatchService.BatchServiceClient Batches => new(Channel);

    public V1.PhotoService.PhotoServiceClient Photos => new(Channel);

    /// <summary>Starts the service and waits until it is ready.</summary>
    public async Task StartAsync()
    {
        var start = new ProcessStartInfo(Path.Combine(AppContext.BaseDirectory, "coatscan"))
        {
            ArgumentList = { "serve", "--data", _data, "--grpc-port", $"{_grpcPort}", "--http-port", $"{_httpPort}" },
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        _process = Process.Start(start)!;
        _process.OutputDataReceived += (_, _) => { };
        _process.ErrorDataReceived += (_, _) => { };
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
        using var http = new HttpClient();
        while (!await IsReadyAsync(http))
        {
            Assert.False(_process.HasExited, "The service ended at its start.");
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }
    }

    /// <summary>Ends the process without a chance to do anything (SIGKILL).</summary>
    public async Task KillAsync()
    {
        _process!.Kill();
        await _process.WaitForExitAsync(TestContext.Current.CancellationToken);
        _process.Dispose();
        _process = null;
    }

    public async ValueTask DisposeAsync()
    {
        Channel.Dispose();
        if (_process is not null)
        {
            await KillAsync();
        }
    }

    private async Task<bool> IsReadyAsync(HttpClient http)
    {
        try
        {
            var answer = await http.GetAsync(
                new Uri($"http://127.0.0.1:{_httpPort}/health/ready"), TestContext.Current.CancellationToken);
            return answer.StatusCode == HttpStatusCode.OK;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
