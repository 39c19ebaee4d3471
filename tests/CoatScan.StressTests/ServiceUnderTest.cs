using System.Diagnostics;
using System.Globalization;
using CoatScan.Client;
using CoatScan.RealServers;
using CoatScan.V1;
using Grpc.Net.Client;

namespace CoatScan.StressTests;

/// <summary>A service in a process of its own: to be stopped, killed and weighed.</summary>
internal sealed class ServiceUnderTest : IAsyncDisposable
{
    /// <summary>Names another <c>coatscan</c> to start than the one beside this program.</summary>
    public const string CommandVariable = "COATSCAN_STRESS_COMMAND";

    private const int TermSignal = 15;

    private static readonly TimeSpan LongestStart = TimeSpan.FromSeconds(120);
    private static readonly TimeSpan LookInterval = TimeSpan.FromMilliseconds(50);

    private readonly string[] _command;
    private readonly IReadOnlyDictionary<string, string> _settings;
    private Process? _process;

    private ServiceUnderTest(
        string[] command, IReadOnlyDictionary<string, string>? settings, string folder, int grpcPort, int httpPort)
    {
        (_command, _settings, Folder) = (command, settings ?? new Dictionary<string, string>(), folder);
        Address = new Uri($"http://127.0.0.1:{grpcPort}");
        Channel = CoatScanChannel.ForAddress(Address);

        // Without retries: what a caller sees who does not try again.
        PlainChannel = GrpcChannel.ForAddress(Address, new GrpcChannelOptions
        {
            MaxSendMessageSize = null,
            HttpHandler = new SocketsHttpHandler { EnableMultipleHttp2Connections = true },
            DisposeHttpClient = true,
        });
        Http = new HttpClient { BaseAddress = new Uri($"http://127.0.0.1:{httpPort}") };
    }

    public string Folder { get; }

    public Uri Address { get; }

    public GrpcChannel Channel { get; }

    public GrpcChannel PlainChannel { get; }

    public HttpClient Http { get; }

    public FindingService.FindingServiceClient Findings => new(Channel);

    public PhotoService.PhotoServiceClient Photos => new(Channel);

    public BatchService.BatchServiceClient Batches => new(Channel);

    /// <summary>Resident memory, MB, as the kernel counts it.</summary>
    public double ResidentMb => double.Parse(
        File.ReadLines($"/proc/{_process!.Id}/status").First(line => line.StartsWith("VmRSS", StringComparison.Ordinal))
            .Split(' ', StringSplitOptions.RemoveEmptyEntries)[^2],
        CultureInfo.InvariantCulture) / 1024.0;

    /// <summary>Starts <c>coatscan serve</c> on a data folder and returns when it is ready.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="settings">What its environment says beside ours.</param>
    /// <param name="core">The only core that it may use; null for any.</param>
    public static Task<ServiceUnderTest> StartAsync(
        string folder, IReadOnlyDictionary<string, string>? settings = null, int? core = null) =>
        StartAsync(folder, settings, [.. core is null ? (string[])[] : ["taskset", "--cpu-list", $"{core}"], .. Command(), "serve"]);

    /// <summary>Starts this program as the service.</summary>
    /// <param name="folder">The data folder.</param>
    /// <param name="leakAfter">When it is to begin to leak; null for never.</param>
    public static Task<ServiceUnderTest> StartOwnAsync(string folder, TimeSpan? leakAfter) => StartAsync(
        folder,
        null,
        [
            "dotnet", typeof(ServiceUnderTest).Assembly.Location, "host",
            .. leakAfter is { } after ? (string[])["--leak-after", after.TotalSeconds.ToString(CultureInfo.InvariantCulture)] : [],
        ]);

    /// <summary>Kills it as <c>kill -9</c> does.</summary>
    public async Task KillAsync()
    {
        _process!.Kill(entireProcessTree: true);
        await _process.WaitForExitAsync();
    }

    /// <summary>Asks it to stop as an orchestrator does, and waits until it has.</summary>
    /// <returns>Its exit code.</returns>
    public async Task<int> StopAsync()
    {
        using var kill = Process.Start("kill", [$"-{TermSignal}", $"{_process!.Id}"]);
        await kill.WaitForExitAsync();
        await _process.WaitForExitAsync();
        return _process.ExitCode;
    }

    /// <summary>Starts it again at the same address, and returns when it is ready.</summary>
    public async Task RestartAsync()
    {
        _process?.Dispose();
        var start = new ProcessStartInfo(_command[0], _command[1..]) { RedirectStandardOutput = true };
        foreach (var (name, value) in _settings)
        {
            start.Environment[name] = value;
        }

        _process = Process.Start(start)!;
        _process.OutputDataReceived += (_, _) => { };
        _process.BeginOutputReadLine();
        var clock = Stopwatch.StartNew();
        while (!await IsReadyAsync())
        {
            if (_process.HasExited || clock.Elapsed > LongestStart)
            {
                throw new InvalidOperationException("The service did not start.");
            }

            await Task.Delay(LookInterval);
        }
    }

    /// <summary>Whether it says that it is ready.</summary>
    public async Task<bool> IsReadyAsync()
    {
        try
        {
            using var response = await Http.GetAsync("/health/ready");
            return response.IsSuccessStatusCode;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (_process is { HasExited: false })
        {
            await KillAsync();
        }

        _process?.Dispose();
        Channel.Dispose();
        PlainChannel.Dispose();
        Http.Dispose();
    }

    private static async Task<ServiceUnderTest> StartAsync(
        string folder, IReadOnlyDictionary<string, string>? settings, string[] command)
    {
        var (grpcPort, httpPort) = (ServerProcess.FreePort(), ServerProcess.FreePort());
        var service = new ServiceUnderTest(
            [.. command, "--data", folder, "--grpc-port", $"{grpcPort}", "--http-port", $"{httpPort}"],
            settings,
            folder,
            grpcPort,
            httpPort);
        try
        {
            await service.RestartAsync();
            return service;
        }
        catch
        {
            await service.DisposeAsync();
            throw;
        }
    }

    private static string[] Command()
    {
        var named = Environment.GetEnvironmentVariable(CommandVariable);
        if (string.IsNullOrEmpty(named))
        {
            return ["dotnet", Path.Combine(AppContext.BaseDirectory, "coatscan.dll")];
        }

        return File.Exists(named)
            ? named.EndsWith(".dll", StringComparison.Ordinal) ? ["dotnet", named] : [named]
            : throw new ArgumentException($"{CommandVariable} names no file: '{named}'.");
    }
}
