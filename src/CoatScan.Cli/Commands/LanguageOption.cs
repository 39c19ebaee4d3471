using System.CommandLine;
using System.CommandLine.Parsing;
using CoatScan.Cli.Text;
using CoatScan.Reports;

namespace CoatScan.Cli.Commands;

/// <summary>The option <c>--language</c>, which every command has.</summary>
internal static class LanguageOption
{
    private const string Name = "--language";

    private static readonly string[] Languages = [.. SheetWords.All.Select(words => words.Language)];

    /// <summary>Creates the option.</summary>
    public static Option<SheetWords?> Create()
    {
        var option = new Option<SheetWords?>(Name)
        {
            Description = "Language of what people read, here and on sheets: en (default), de or es. JSON and CSV stay as they are.",
            HelpName = string.Join('|', Languages),
            Recursive = true,
            CustomParser = result =>
            {
                var word = result.Tokens[0].Value;
                if (Languages.Contains(word))
                {
                    return SheetWords.Of(word);
                }

                result.AddError($"{Name} takes {string.Join(", ", Languages[..^1])} or {Languages[^1]}, not '{word}'.");
                return null;
            },
        };
        option.CompletionSources.Clear();
        option.CompletionSources.Add(Languages);
        return option;
    }

    /// <summary>The language of a command line, also of one that is wrong elsewhere; English where none is given that there is.</summary>
    public static SheetWords Of(ParseResult parsed) => Chosen(parsed.GetResult(Name));

    /// <summary>The language of the command line that a part of it belongs to.</summary>
    public static SheetWords Of(SymbolResult part) => Chosen(part.GetResult(Name));

    /// <summary>The same as words of the terminal.</summary>
    public static ReaderWords Reader(ParseResult parsed) => new(Of(parsed));

    private static SheetWords Chosen(SymbolResult? option) => option is { Tokens: [.., var word] } ? SheetWords.Of(word.Value) : SheetWords.English;
}
