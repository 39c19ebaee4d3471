using System.Diagnostics;
using System.Globalization;

namespace CoatScan.FuzzTests;

/// <summary>The program: <c>fuzz [--minutes N] [--seed N] [--target NAME,...] [--keep FOLDER]</c>.</summary>
internal static class FuzzCommand
{
    private const string Usage = "fuzz [--minutes N] [--seed N] [--target NAME,...] [--keep FOLDER]";

    /// <summary>Fuzzes and reports.</summary>
    /// <returns>0 nothing found, 1 something found, 2 usage.</returns>
    public static async Task<int> RunAsync(string[] options, TextWriter output, TextWriter error)
    {
        var (minutes, seed, names, keep) = (1.0, 1, (string[]?)null, (string?)null);
        for (var i = 0; i < options.Length; i += 2)
        {
            var value = i + 1 < options.Length ? options[i + 1] : "";
            var isRead = options[i] switch
            {
                "--minutes" => double.TryParse(value, CultureInfo.InvariantCulture, out minutes) && minutes > 0,
                "--seed" => int.TryParse(value, CultureInfo.InvariantCulture, out seed),
                "--target" => (names = value.Split(',')).All(FuzzTargets.Names.Contains),
                "--keep" => (keep = value).Length > 0,
                _ => false,
            };
            if (!isRead)
            {
                await error.WriteLineAsync($"{options[i]} {value} is not understood.\n{Usage}\nTargets: {string.Join(", ", FuzzTargets.Names)}");
                return 2;
            }
        }

        await using var targets = await FuzzTargets.StartAsync(names);
        var fuzzer = new Fuzzer(targets.All, FuzzTargets.CorpusFolder, seed, timed: true) { KeepFolder = keep };
        var clock = Stopwatch.StartNew();
        await fuzzer.ReplayAsync();
        while (clock.Elapsed < TimeSpan.FromMinutes(minutes))
        {
            await fuzzer.RoundAsync();
        }

        await WriteAsync(fuzzer, output);
        foreach (var (stage, slowest) in targets.SlowestStages)
        {
            await output.WriteLineAsync(FormattableString.Invariant($"slowest {stage}: {slowest:0.00} s on the clock"));
        }

        await output.WriteLineAsync(FormattableString.Invariant(
            $"{fuzzer.Reports.Sum(report => report.Runs)} inputs in {clock.Elapsed.TotalMinutes:0.0} min, seed {seed}, {fuzzer.Findings.Count} findings"));
        return fuzzer.Findings.Count == 0 ? 0 : 1;
    }

    private static async Task WriteAsync(Fuzzer fuzzer, TextWriter output)
    {
        await output.WriteLineAsync($"{"target",-12} {"inputs",9} {"outcomes",9} {"slowest (s of processor)",25}");
        foreach (var report in fuzzer.Reports)
        {
            await output.WriteLineAsync(string.Create(
                CultureInfo.InvariantCulture,
                $"{report.Name,-12} {report.Runs,9} {report.Outcomes.Count,9} {report.Slowest.TotalSeconds,25:0.00}"));
        }

        foreach (var report in fuzzer.Reports)
        {
            foreach (var (outcome, count) in report.Outcomes.OrderByDescending(one => one.Value).Take(12))
            {
                await output.WriteLineAsync($"  {report.Name}: {count} x {outcome}");
            }
        }

        foreach (var finding in fuzzer.Findings)
        {
            await output.WriteLineAsync($"FOUND in {finding.Target}: {finding.What}");
            await output.WriteLineAsync($"  input: {Convert.ToBase64String(finding.Input.AsSpan(0, Math.Min(finding.Input.Length, 300)))}");
        }
    }
}
