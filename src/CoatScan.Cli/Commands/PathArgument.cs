using System.CommandLine;

namespace CoatScan.Cli.Commands;

/// <summary>Arguments that name files.</summary>
internal static class PathArgument
{
    /// <summary>
    /// Refuses what looks like an option but is none. The parser would take a misspelled option for a file.
    /// </summary>
    public static Argument<string[]> RefuseUnknownOptions(this Argument<string[]> argument)
    {
        ArgumentNullException.ThrowIfNull(argument);
        argument.Validators.Add(result =>
        {
            var odd = result.Tokens
                .Select(token => token.Value)
                .FirstOrDefault(word => word.Length > 1 && word[0] == '-' && !Path.Exists(word));
            if (odd is not null)
            {
                result.AddError($"There is no option '{odd}'.");
            }
        });
        return argument;
    }
}
