using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;

namespace CoatScan.Cli.Commands;

/// <summary>Options that take numbers, always with a point as decimal sign.</summary>
internal static class NumberOption
{
    /// <summary>One number; null when the option is not given.</summary>
    /// <param name="name">Name of the option.</param>
    /// <param name="description">What it is, with its unit.</param>
    /// <param name="range">The allowed range.</param>
    public static Option<double?> One(string name, string description, NumberRange range) => new(name)
    {
        Description = description,
        HelpName = "number",
        CustomParser = result => Read(name, result.Tokens[0].Value, range, result),
    };

    /// <summary>A list of numbers, separated or by the option given again; empty when the option is not given.</summary>
    /// <param name="name">Name of the option.</param>
    /// <param name="description">What it is, with its unit.</param>
    /// <param name="range">The allowed range of each number.</param>
    /// <param name="mostCount">How many numbers are allowed.</param>
    public static Option<IReadOnlyList<double>> Many(
        string name, string description, NumberRange range, int mostCount) => new(name)
        {
            Description = description,
            HelpName = "number,number",
            DefaultValueFactory = _ => [],
            CustomParser = result =>
            {
                var words = new List<string>();
                var numbers = new List<double>();
                var hasDecimalComma = LanguageOption.Of(result).Format.DecimalMark == ",";
                foreach (var given in result.Tokens.Select(token => token.Value))
                {
                    if (NumberList.Split(given, hasDecimalComma) is not { } some)
                    {
                        result.AddError($"{name}: '{given}' reads two ways. Write a decimal point, and give each reading its own option, "
                            + $"for example {name} 118.5 {name} 125.");
                        return null;
                    }

                    words.AddRange(some);
                }

                foreach (var word in words)
                {
                    if (Read(name, word, range, result) is not { } number)
                    {
                        return null;
                    }

                    numbers.Add(number);
                }

                if (numbers.Count > mostCount)
                {
                    result.AddError($"{name} takes at most {mostCount} numbers; {numbers.Count} are given.");
                }

                return numbers;
            },
        };

    /// <summary>A whole number; null when the option is not given.</summary>
    /// <param name="name">Name of the option.</param>
    /// <param name="description">What it is, with its unit.</param>
    /// <param name="least">Smallest that is taken.</param>
    /// <param name="most">Largest that is taken.</param>
    public static Option<int?> Whole(string name, string description, int least, int most) => new(name)
    {
        Description = description,
        HelpName = "number",
        CustomParser = result =>
        {
            var word = result.Tokens[0].Value;
            if (int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
                && number >= least && number <= most)
            {
                return number;
            }

            result.AddError($"{name} takes a whole number from {least} to {most}, not '{word}'.");
            return null;
        },
    };

    /// <summary>A TCP port, 1 to 65535.</summary>
    /// <param name="name">Name of the option.</param>
    /// <param name="description">What listens there.</param>
    /// <param name="usual">The port when the option is not given.</param>
    public static Option<int> Port(string name, string description, int usual) => new(name)
    {
        Description = description,
        HelpName = "port",
        DefaultValueFactory = _ => usual,
        CustomParser = result =>
        {
            var word = result.Tokens[0].Value;
            if (int.TryParse(word, NumberStyles.None, CultureInfo.InvariantCulture, out var port)
                && port is >= 1 and <= 65535)
            {
                return port;
            }

            result.AddError($"{name} takes a port from 1 to 65535, not '{word}'.");
            return 0;
        },
    };

    private static double? Read(string name, string word, NumberRange range, ArgumentResult result)
    {
        if (!double.TryParse(word, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            || !double.IsFinite(number))
        {
            result.AddError($"{name} takes numbers with a decimal point, not '{word}'.");
            return null;
        }

        if (!range.Holds(number))
        {
            result.AddError($"{name} takes {range}, not '{word.Trim()}'.");
            return null;
        }

        return number;
    }
}
