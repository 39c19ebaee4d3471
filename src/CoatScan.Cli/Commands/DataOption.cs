using System.CommandLine;

namespace CoatScan.Cli.Commands;

/// <summary>The option <c>--data</c> of commands that work on the folder of a service.</summary>
internal static class DataOption
{
    /// <summary>Creates the option.</summary>
    public static Option<string?> Create() => new("--data")
    {
        Description = "Folder where the service keeps its findings (the user's application data when not given).",
        HelpName = "folder",
    };
}
