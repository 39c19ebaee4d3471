using System.CommandLine;
using CoatScan.Cli.Connection;

namespace CoatScan.Cli.Commands;

/// <summary>The options that say where a store lies: <c>--data</c> and <c>--photos</c>.</summary>
internal sealed class StoreFolders
{
    private readonly Option<string?> _data = DataOption.Create();

    private readonly Option<string?> _photos = new("--photos")
    {
        Description = "Folder where the service keeps its photos, if it is not the one inside the data folder.",
        HelpName = "folder",
    };

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        command.Options.Add(_data);
        command.Options.Add(_photos);
    }

    /// <summary>The folder of the findings.</summary>
    public string Data(ParseResult parsed) => UserFolder.Choose(parsed.GetValue(_data));

    /// <summary>The folder of the photos; null for the one inside the data folder.</summary>
    public string? Photos(ParseResult parsed) => parsed.GetValue(_photos);
}
