using System.CommandLine;
using CoatScan.Reports;

namespace CoatScan.Cli.Commands;

/// <summary>The option <c>--language</c> of pages and sheets.</summary>
internal static class LanguageOption
{
    private static readonly string[] Languages = [.. SheetWords.All.Select(words => words.Language)];

    /// <summary>Creates the option; its value is null when it is not given.</summary>
    public static Option<SheetWords?> Create()
    {
        var option = new Option<SheetWords?>("--language")
        {
            Description = "Language of what people read, here and on sheets: en (default), de or es. JSON, CSV and complaints stay as they are.",
            HelpName = string.Join('|', Languages),
            CustomParser = result =>
            {
                var word = result.Tokens[0].Value;
                if (Languages.Contains(word))
                {
                    return SheetWords.Of(word);
                }

                result.AddError($"--language takes {string.Join(", ", Languages[..^1])} or {Languages[^1]}, not '{word}'.");
                return null;
            },
        };
        option.CompletionSources.Clear();
        option.CompletionSources.Add(Languages);
        return option;
    }
}
