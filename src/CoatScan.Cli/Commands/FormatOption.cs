using System.CommandLine;

namespace CoatScan.Cli.Commands;

/// <summary>The option <c>--format</c>.</summary>
internal static class FormatOption
{
    private static readonly string[] LaterFormats = ["html", "pdf", "csv"];

    /// <summary>Creates the option; its value is null when it is not given.</summary>
    public static Option<OutputFormat?> Create() => new("--format")
    {
        Description = "text for people, json for programs (one object a line and nothing else).",
        HelpName = "text|json",
        CustomParser = result =>
        {
            var word = result.Tokens[0].Value;
            switch (word)
            {
                case "text":
                    return OutputFormat.Text;
                case "json":
                    return OutputFormat.Json;
                default:
                    result.AddError(LaterFormats.Contains(word)
                        ? $"--format {word} comes with a later version; this one writes text or json."
                        : $"--format takes text or json, not '{word}'.");
                    return null;
            }
        },
    };
}
