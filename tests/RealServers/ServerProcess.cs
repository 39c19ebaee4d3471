using System.Collections.Concurrent;
using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;

namespace CoatScan.RealServers;

/// <summary>What the test servers have in common: a program in the foreground, free ports, a user that is not root.</summary>
internal sealed class ServerProcess : IDisposable
{
    private const int FirstPort = 10_000;
    private const int LastPort = 15_999;

    // A start takes seconds, on a loaded machine tens of them; a test that waited for ever would say nothing.
    private static readonly TimeSpan LongestWait = TimeSpan.FromMinutes(3);

    private static readonly ConcurrentDictionary<int, bool> GivenPorts = [];

    private readonly Process _process;
    private readonly ConcurrentQueue<string> _output = new();

    private ServerProcess(Process process)
    {
        _process = process;
        process.OutputDataReceived += (_, line) => _output.Enqueue(line.Data ?? "");
        process.ErrorDataReceived += (_, line) => _output.Enqueue(line.Data ?? "");
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
    }

    public int Id => _process.Id;

    public bool HasExited => _process.HasExited;

    /// <summary>What it has written so far.</summary>
    public string Output => string.Join('\n', _output);

    public static ServerProcess Start(IEnumerable<string> command, IReadOnlyDictionary<string, string> environment)
    {
        var words = command.ToArray();
        var start = new ProcessStartInfo(words[0], words[1..])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Path.GetTempPath(),
        };
        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        return new ServerProcess(Process.Start(start)!);
    }

    /// <summary>Runs a program to its end.</summary>
    public static async Task RunAsync(params string[] command)
    {
        using var process = Start(command, new Dictionary<string, string>());
        await process._process.WaitForExitAsync();
        if (process._process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{string.Join(' ', command)}: {process.Output}");
        }
    }

    /// <summary>Sends a signal, for example INT, to this process alone.</summary>
    public Task SignalAsync(string signal) => RunAsync("kill", $"-{signal}", $"{Id}");

    public Task EndAsync() => _process.WaitForExitAsync();

    public void Dispose() => _process.Dispose();

    /// <summary>A loopback port that nobody listens on, another one at every call.</summary>
    /// <remarks>
    /// Below the ports that systems give to outgoing connections: a server that was killed finds its own still free when it
    /// starts again, however many programs connect meanwhile.
    /// </remarks>
    public static int FreePort()
    {
        while (true)
        {
            var port = RandomNumberGenerator.GetInt32(FirstPort, LastPort + 1);
            if (!GivenPorts.ContainsKey(port) && IsFree(port) && GivenPorts.TryAdd(port, true))
            {
                return port;
            }
        }
    }

    /// <summary>Waits until something holds; fails with what the server wrote when it ends before, or takes minutes.</summary>
    public async Task UntilAsync(Func<Task<bool>> holds)
    {
        var clock = Stopwatch.StartNew();
        while (!await holds())
        {
            if (HasExited || clock.Elapsed > LongestWait)
            {
                throw new InvalidOperationException($"The server {(HasExited ? "ended" : "did not come up")}:\n{Output}");
            }

            await Task.Delay(50);
        }
    }

    private static bool IsFree(int port)
    {
        using var listener = new TcpListener(IPAddress.Loopback, port);
        try
        {
            listener.Start();
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }
}
