using System.Globalization;

namespace CoatScan.FuzzTests;

/// <summary>The program: <c>replay TARGET INPUT ...</c>, where an input is a file or base64, as the report of a run prints it.</summary>
internal static class ReplayCommand
{
    private const string Usage = "replay TARGET INPUT ...   an input is a file or base64";

    // The first time includes compilation; the fuzzer judges what comes after it.
    private const int Times = 3;

    /// <summary>Gives inputs to a target and prints what came of each, and the processor time it took.</summary>
    /// <returns>0 nothing found, 1 something found or too slow, 2 usage.</returns>
    public static async Task<int> RunAsync(string[] words, TextWriter output, TextWriter error)
    {
        if (words is not [var name, _, ..] || !FuzzTargets.Names.Contains(name))
        {
            await error.WriteLineAsync($"{Usage}\nTargets: {string.Join(", ", FuzzTargets.Names)}");
            return 2;
        }

        var inputs = new List<byte[]>();
        foreach (var word in words[1..])
        {
            if (await ReadAsync(word) is not { } input)
            {
                await error.WriteLineAsync($"'{word}' is neither a file nor base64.\n{Usage}");
                return 2;
            }

            inputs.Add(input);
        }

        await using var targets = await FuzzTargets.StartAsync([name]);
        var target = targets.All.Single();
        var found = false;
        foreach (var (word, input) in words[1..].Zip(inputs))
        {
            for (var time = 1; time <= Times; time++)
            {
                targets.ForgetStages();
                var (outcome, finding, took) = await Fuzzer.TryAsync(target, input);
                found |= finding is not null || (time == Times && took > Fuzzer.SlowestAllowed);
                await output.WriteLineAsync(string.Create(
                    CultureInfo.InvariantCulture, $"{word} time {time}: {took.TotalSeconds:0.00} s of processor time, {finding ?? outcome}"));
            }

            foreach (var (stage, seconds) in targets.SlowestStages.OrderByDescending(one => one.Value))
            {
                await output.WriteLineAsync(string.Create(CultureInfo.InvariantCulture, $"  {stage}: {seconds:0.00} s on the clock"));
            }
        }

        return found ? 1 : 0;
    }

    private static async Task<byte[]?> ReadAsync(string word)
    {
        if (File.Exists(word))
        {
            return await File.ReadAllBytesAsync(word);
        }

        var bytes = new byte[word.Length];
        return Convert.TryFromBase64String(word, bytes, out var length) ? bytes[..length] : null;
    }
}
