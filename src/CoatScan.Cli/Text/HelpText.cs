using System.CommandLine;

namespace CoatScan.Cli.Text;

/// <summary>The explanation of commands and options in the language of its reader; the library that lays it out knows English only.</summary>
internal static class HelpText
{
    /// <summary>What the library writes itself, as a whole line or in one.</summary>
    public static IReadOnlyList<string> Heads { get; } =
        ["Description:", "Usage:", "Arguments:", "Options:", "Commands:", "[options]", "[command]", "(REQUIRED)", "[default:"];

    /// <summary>Says in the language what each part of a command is for.</summary>
    public static void Say(Command command, ReaderWords words)
    {
        ArgumentNullException.ThrowIfNull(command);
        IEnumerable<Symbol> parts = [command, .. command.Arguments, .. command.Options];
        foreach (var part in parts)
        {
            part.Description = Said(part.Description ?? "", words);
        }

        foreach (var below in command.Subcommands)
        {
            Say(below, words);
        }
    }

    /// <summary>The words of a description; an example of JSON may stand behind them.</summary>
    public static string WordsOf(string description)
    {
        ArgumentNullException.ThrowIfNull(description);
        var example = description.IndexOf('{', StringComparison.Ordinal);
        return example < 0 ? description : description[..example].TrimEnd('[', ' ', '\n');
    }

    /// <summary>The same of what the library has written.</summary>
    public static string Say(string help, ReaderWords words)
    {
        ArgumentNullException.ThrowIfNull(help);
        return Heads.Aggregate(help, (text, head) => text.Replace(head, words.Fill(head), StringComparison.Ordinal));
    }

    private static string Said(string description, ReaderWords words)
    {
        var english = WordsOf(description);
        return words.Fill(english) + description[english.Length..];
    }
}
