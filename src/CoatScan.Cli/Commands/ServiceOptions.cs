using System.CommandLine;
using System.CommandLine.Parsing;
using CoatScan.Cli.Connection;

namespace CoatScan.Cli.Commands;

/// <summary>The options that choose the service: <c>--server</c> or, without it, the folder <c>--data</c>.</summary>
internal sealed class ServiceOptions
{
    private readonly Option<Uri?> _server = new("--server")
    {
        Description = "Address of a running service, http or https. Without it the service runs inside this command.",
        HelpName = "url",
        CustomParser = result =>
        {
            var word = result.Tokens[0].Value;
            if (Uri.TryCreate(word, UriKind.Absolute, out var address)
                && (address.Scheme == Uri.UriSchemeHttp || address.Scheme == Uri.UriSchemeHttps))
            {
                return address;
            }

            result.AddError($"--server takes an address such as http://localhost:8081, not '{word}'.");
            return null;
        },
    };

    private readonly Option<string?> _data = new("--data")
    {
        Description = "Folder where the service inside this command keeps its findings "
            + "(the user's application data when not given).",
        HelpName = "folder",
    };

    private readonly Option<string?> _keyFile = new("--key-file")
    {
        Description = "File that holds the API key or token for --server, and nothing else.",
        HelpName = "file",
    };

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        command.Options.Add(_server);
        command.Options.Add(_data);
        command.Options.Add(_keyFile);
        command.Validators.Add(Check);
    }

    /// <summary>The choice that was made.</summary>
    public ServiceChoice Read(ParseResult parsed) => new(parsed.GetValue(_server), parsed.GetValue(_data))
    {
        Credential = parsed.GetValue(_keyFile) is { } file ? ReadKey(file) : null,
    };

    // In a file, not on the command line, which every user of the machine can list.
    private static string ReadKey(string file)
    {
        try
        {
            var key = File.ReadAllText(file).Trim();
            return key.Length > 0 && !key.Any(char.IsWhiteSpace)
                ? key
                : throw CommandException.Usage($"--key-file: '{file}' must hold one API key or token and nothing else.");
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw CommandException.Usage($"--key-file: '{file}' cannot be read.");
        }
    }

    private void Check(CommandResult result)
    {
        if (result.GetResult(_server) is not null && result.GetResult(_data) is not null)
        {
            result.AddError("--data is for the service inside this command; it cannot go with --server.");
        }

        if (result.GetResult(_keyFile) is not null && result.GetResult(_server) is null)
        {
            result.AddError("--key-file is for a running service; name it with --server.");
        }
    }
}
