using System.CommandLine;
using CoatScan.Reports;

namespace CoatScan.Cli.Commands;

/// <summary>The option <c>--paper</c> of sheets.</summary>
internal static class PaperOption
{
    private static readonly Paper[] Papers = [Paper.A4, Paper.Letter];

    /// <summary>Creates the option; its value is null when it is not given.</summary>
    public static Option<Paper?> Create() => new("--paper")
    {
        Description = "Paper of sheets when they are printed: a4 (default) or letter.",
        HelpName = "a4|letter",
        CustomParser = result =>
        {
            var word = result.Tokens[0].Value;
            var paper = Array.Find(Papers, one => one.Name.Equals(word, StringComparison.OrdinalIgnoreCase));
            if (paper is null)
            {
                result.AddError($"--paper takes a4 or letter, not '{word}'.");
            }

            return paper;
        },
    };
}
