using System.Globalization;

namespace CoatScan.Service.Hosting;

/// <summary>The service inside the caller's own process, reached over a Unix domain socket in a private folder.</summary>
/// <remarks>The same code path as a server: nothing is done twice for the command line.</remarks>
public sealed class EmbeddedService : IAsyncDisposable
{
    private const int MaxPhotoBytes = 32 * 1024 * 1024;

    private readonly WebApplication _application;
    private readonly string _folder;

    private EmbeddedService(WebApplication application, string folder, string socketPath)
    {
        _application = application;
        _folder = folder;
        SocketPath = socketPath;
    }

    /// <summary>Path of the socket; see <c>CoatScanChannel.ForSocket</c>.</summary>
    public string SocketPath { get; }

    /// <summary>Starts the service and returns when it answers.</summary>
    /// <param name="dataFolder">Folder for the database; null for the user's own data folder.</param>
    /// <param name="gradeBatches">Whether it works on the batches in the folder as long as it runs.</param>
    /// <param name="cancellationToken">Ends the start.</param>
    /// <exception cref="StartupException">Model, knowledge or store cannot be used; one sentence says which.</exception>
    public static async Task<EmbeddedService> StartAsync(
        string? dataFolder, bool gradeBatches, CancellationToken cancellationToken)
    {
        // CreateTempSubdirectory makes it readable by this user only.
        var folder = Directory.CreateTempSubdirectory("coatscan-").FullName;
        var socketPath = Path.Combine(folder, "grpc.sock");
        WebApplication? application = null;
        try
        {
            application = CoatScanHost.Build(Settings(dataFolder ?? UserDataFolder(), socketPath, gradeBatches));
            await application.StartAsync(cancellationToken).ConfigureAwait(false);
            return new EmbeddedService(application, folder, socketPath);
        }
        catch
        {
            if (application is not null)
            {
                await application.DisposeAsync().ConfigureAwait(false);
            }

            Directory.Delete(folder, recursive: true);
            throw;
        }
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        // What is in progress goes back to the ledger now, not when its lease runs out.
        await _application.StopAsync().ConfigureAwait(false);
        await _application.DisposeAsync().ConfigureAwait(false);
        Directory.Delete(_folder, recursive: true);
    }

    private static CoatScanHostSettings Settings(string dataFolder, string socketPath, bool gradeBatches) => new()
    {
        DataFolder = dataFolder,
        SocketPath = socketPath,
        GradeBatches = gradeBatches,
        Quiet = true,
        Overrides = new Dictionary<string, string?>
        {
            // Two photos at a time, where there are two cores: each worker holds its own copy of the network's working memory.
            ["CoatScan:Analysis:Workers"] = Math.Min(2, Environment.ProcessorCount).ToString(CultureInfo.InvariantCulture),
            // Together at most 50 megapixels, the room of the largest photo that is allowed.
            ["CoatScan:Analysis:MaxMegapixelsInFlight"] = "50",
            ["CoatScan:Analysis:MaxInlineBytes"] = MaxPhotoBytes.ToString(CultureInfo.InvariantCulture),
            // A folder looked at twice is no news to the one who looks.
            ["CoatScan:Photos:NoteSeenBefore"] = "false",
            ["CoatScan:Analysis:MaxPanelBytes"] = (3 * MaxPhotoBytes).ToString(CultureInfo.InvariantCulture),
        },
    };

    private static string UserDataFolder() => Path.Combine(
        Environment.GetFolderPath(
            Environment.SpecialFolder.LocalApplicationData,
            Environment.SpecialFolderOption.Create),
        "coatscan");
}
