using System.CommandLine;

namespace CoatScan.Cli.Commands;

/// <summary>The option <c>--format</c>.</summary>
internal static class FormatOption
{
    private static readonly string[] PlainFormats = ["text", "json"];
    private static readonly string[] SheetFormats = ["html", "pdf", "csv"];

    /// <summary>Creates the option for text and JSON; its value is null when it is not given.</summary>
    public static Option<OutputFormat?> Create() => Suggesting(new("--format")
    {
        Description = "text for people, json for programs (one object a line and nothing else).",
        HelpName = "text|json",
        CustomParser = result => Read(result, withSheets: false),
    }, []);

    /// <summary>Creates the option with sheets and tables besides.</summary>
    public static Option<OutputFormat?> CreateWithSheets() => Suggesting(new("--format")
    {
        Description = "text for people, json for programs (one object a line and nothing else), csv for spreadsheets (one row a finding); "
            + "html or pdf for sheets to read, print and file, in the folder of --out.",
        HelpName = "text|json|html|pdf|csv",
        CustomParser = result => Read(result, withSheets: true),
    }, SheetFormats);

    // The library would suggest the names of the enumeration, which are no words of the command line.
    private static Option<OutputFormat?> Suggesting(Option<OutputFormat?> option, string[] more)
    {
        option.CompletionSources.Clear();
        option.CompletionSources.Add([.. PlainFormats, .. more]);
        return option;
    }

    private static OutputFormat? Read(System.CommandLine.Parsing.ArgumentResult result, bool withSheets)
    {
        var word = result.Tokens[0].Value;
        if (PlainFormats.Contains(word) || (withSheets && SheetFormats.Contains(word)))
        {
            return Enum.Parse<OutputFormat>(word, ignoreCase: true);
        }

        result.AddError(withSheets
            ? $"--format takes text, json, html, pdf or csv, not '{word}'."
            : $"--format takes text or json, not '{word}'.");
        return null;
    }
}
