using System.CommandLine;
using System.Net;
using CoatScan.Cli.Connection;
using CoatScan.Service.Hosting;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Options;

namespace CoatScan.Cli.Commands;

/// <summary><c>coatscan serve</c>: runs the service until it is stopped.</summary>
internal sealed class ServeCommand
{
    private readonly Option<int> _grpcPort = NumberOption.Port(
        "--grpc-port", "Port for gRPC (HTTP/2 without TLS).", CoatScanHostSettings.DefaultGrpcPort);

    private readonly Option<int> _httpPort = NumberOption.Port(
        "--http-port", "Port for the page, JSON, health and metrics.", CoatScanHostSettings.DefaultHttpPort);

    private readonly Option<string?> _data = DataOption.Create();

    private readonly Option<string?> _host = new("--host")
    {
        Description = "IP address of this machine to listen on; only this machine itself reaches the service when not given.",
        HelpName = "address",
        CustomParser = result =>
        {
            var word = result.Tokens[0].Value;
            if (word == "localhost")
            {
                return IPAddress.Loopback.ToString();
            }

            if (IPAddress.TryParse(word, out var address))
            {
                return address.ToString();
            }

            result.AddError($"--host takes an IP address such as 127.0.0.1 or 0.0.0.0, not '{word}'.");
            return null;
        },
    };

    private readonly Option<bool> _apiKeys = new("--api-keys")
    {
        Description = "Asks every caller for an API key; 'coatscan keys create' makes one.",
    };

    private readonly Option<bool> _noAccessControl = new("--no-access-control")
    {
        Description = "With --host: lets everybody who reaches that address do everything.",
    };

    /// <summary>Creates the command.</summary>
    public static Command Create()
    {
        var serve = new ServeCommand();
        var command = new Command("serve", "Runs the service on this machine until it is stopped.")
        {
            serve._grpcPort,
            serve._httpPort,
            serve._host,
            serve._data,
            serve._apiKeys,
            serve._noAccessControl,
        };
        command.SetAction(serve.RunAsync);
        return command;
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellationToken)
    {
        var settings = new CoatScanHostSettings
        {
            DataFolder = UserFolder.Choose(parsed.GetValue(_data)),
            Host = parsed.GetValue(_host),
            GrpcPort = parsed.GetValue(_grpcPort),
            HttpPort = parsed.GetValue(_httpPort),
            Overrides = AccessOf(parsed),
            DecoderCommand = DecodeWorkerCommand.OfThisProgram(),
        };
        if (settings.GrpcPort == settings.HttpPort)
        {
            // Without TLS nothing negotiates which of the two protocols a connection speaks.
            throw CommandException.Usage("--grpc-port and --http-port must differ.");
        }

        try
        {
            await using var application = CoatScanHost.Build(settings);

            // The service's own log says where it listens, and with which model and knowledge.
            await application.StartAsync(cancellationToken);
            await application.WaitForShutdownAsync(cancellationToken);
            return ExitCode.Done;
        }
        catch (Exception failure) when (failure is StartupException or OptionsValidationException or IOException)
        {
            throw CommandException.Unreachable($"The service could not start: {failure.Message}", failure);
        }
    }

    // What is not said here is left to the configuration.
    private Dictionary<string, string?> AccessOf(ParseResult parsed)
    {
        var settings = new Dictionary<string, string?>();
        if (parsed.GetValue(_apiKeys))
        {
            settings["CoatScan:Access:ApiKeys"] = "true";
        }

        if (parsed.GetValue(_noAccessControl))
        {
            settings["CoatScan:Access:OffOnNetwork"] = "true";
        }

        return settings;
    }
}
