using System.Globalization;
using Npgsql;

namespace CoatScan.RealServers;

/// <summary>A PostgreSQL server of the test's own: loopback, a free port, a data folder that is gone afterwards.</summary>
public sealed class PostgresServer : IAsyncDisposable
{
    /// <summary>Why there is none, and what to do about it.</summary>
    public const string Missing = "PostgreSQL is not installed: apt-get install -y --no-install-recommends postgresql";

    private const string User = "coatscan";
    private const string Password = "loopback-only";

    private readonly string _folder = Directory.CreateTempSubdirectory("coatscan-postgres-").FullName;
    private ServerProcess? _process;
    private int _databases;

    private PostgresServer()
    {
    }

    /// <summary>Port on the loopback address; the same after a restart.</summary>
    public int Port { get; } = ServerProcess.FreePort();

    private static string? Programs => Directory.Exists("/usr/lib/postgresql")
        ? Directory.GetDirectories("/usr/lib/postgresql")
            .OrderBy(folder => int.Parse(Path.GetFileName(folder), CultureInfo.InvariantCulture))
            .Select(folder => Path.Combine(folder, "bin"))
            .LastOrDefault(folder => File.Exists(Path.Combine(folder, "initdb")))
        : null;

    private string Data => Path.Combine(_folder, "data");

    /// <summary>Whether the program is there.</summary>
    public static bool IsInstalled => Programs is not null;

    /// <summary>Starts a server.</summary>
    public static async Task<PostgresServer> StartAsync()
    {
        var server = new PostgresServer();
        var passwordFile = Path.Combine(server._folder, "password");
        await File.WriteAllTextAsync(passwordFile, Password);
        if (Environment.IsPrivilegedProcess)
        {
            await ServerProcess.RunAsync("chown", "-R", "postgres:postgres", server._folder);
        }

        await ServerProcess.RunAsync(Command(
            "initdb", "--pgdata", server.Data, "--username", User, "--pwfile", passwordFile, "--auth", "scram-sha-256",
            // Another order than ours: what we sort must not depend on it.
            "--encoding", "UTF8", "--locale", "C.UTF-8", "--no-sync"));
        await server.StartAgainAsync();
        return server;
    }

    /// <summary>Connection string of a database that is empty and that no other test has.</summary>
    public async Task<string> NewDatabaseAsync()
    {
        var name = $"test{Interlocked.Increment(ref _databases)}";
        await ExecuteAsync(ConnectionTo("postgres"), $"CREATE DATABASE {name}");
        return ConnectionTo(name);
    }

    /// <summary>Connection string of a database.</summary>
    public string ConnectionTo(string database) =>
        $"Host=127.0.0.1;Port={Port};Database={database};Username={User};Password={Password};Maximum Pool Size=20";

    /// <summary>Stops as an operator does.</summary>
    public async Task StopAsync()
    {
        await _process!.SignalAsync("INT");
        await _process.EndAsync();
    }

    /// <summary>Ends it as <c>kill -9</c> does.</summary>
    public async Task KillAsync()
    {
        await _process!.SignalAsync("KILL");
        await _process.EndAsync();
    }

    /// <summary>Starts it again on its data, as it was left.</summary>
    public async Task StartAgainAsync()
    {
        do
        {
            _process?.Dispose();
            _process = ServerProcess.Start(
                Command(
                    "postgres", "-D", Data, "-p", $"{Port}", "-c", "listen_addresses=127.0.0.1",
                    "-c", "unix_socket_directories=", "-c", "max_connections=200", "-c", "shared_buffers=32MB"),
                new Dictionary<string, string>());
            var first = await Task.WhenAny(_process.UntilAsync(AnswersAsync), _process.EndAsync());
            if (!_process.HasExited)
            {
                await first;
            }
        }
        // The children of a server that was killed hold its memory for a moment.
        while (_process.HasExited && _process.Output.Contains("still in use", StringComparison.Ordinal));

        if (_process.HasExited)
        {
            throw new InvalidOperationException($"The server ended:\n{_process.Output}");
        }
    }

    /// <summary>Runs SQL.</summary>
    public static async Task ExecuteAsync(string connectionString, string sql)
    {
        await using var connection = new NpgsqlConnection(connectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (_process is { HasExited: false })
        {
            await StopAsync();
        }

        _process?.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    // The server refuses to run as root.
    private static string[] Command(string program, params string[] arguments) =>
    [
        .. Environment.IsPrivilegedProcess
            ? new[] { "setpriv", "--reuid", "postgres", "--regid", "postgres", "--clear-groups" }
            : [],
        Path.Combine(Programs!, program),
        .. arguments,
    ];

    private async Task<bool> AnswersAsync()
    {
        try
        {
            await using var connection = new NpgsqlConnection(ConnectionTo("postgres") + ";Pooling=false;Timeout=2");
            await connection.OpenAsync();
            return true;
        }
        catch (NpgsqlException)
        {
            return false;
        }
    }
}
