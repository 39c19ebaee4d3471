using System.Diagnostics;
using System.Security.Cryptography;

namespace CoatScan.FuzzTests;

/// <summary>Gives changed inputs to targets in turn, keeps those with a new outcome to change further, and reports what must not be.</summary>
/// <remarks>
/// Time is processor time of the process, so that a busy machine makes nothing slow. One input at a time is given, so all of it is the
/// input's, but for what runs in the background. What seems slow is given a second time, when everything is compiled.
/// </remarks>
internal sealed class Fuzzer
{
    /// <summary>Most processor time of an input (RELIABILITY bar F1: no hang over 2 s).</summary>
    public static readonly TimeSpan SlowestAllowed = TimeSpan.FromSeconds(2);

    // After this nobody knows whether it ever ends.
    private static readonly TimeSpan Hang = TimeSpan.FromSeconds(120);

    private readonly Mutator _mutator;
    private readonly bool _timed;
    private readonly List<(IFuzzTarget Target, TargetReport Report)> _targets = [];

    /// <param name="targets">What to fuzz.</param>
    /// <param name="corpusFolder">Folder of kept inputs, a folder a target in it.</param>
    /// <param name="seed">Makes the run repeatable.</param>
    /// <param name="timed">Whether an input that takes too long is a finding; one that never ends is one in any case.</param>
    public Fuzzer(IEnumerable<IFuzzTarget> targets, string corpusFolder, int seed, bool timed)
    {
        _mutator = new Mutator(seed);
        _timed = timed;
        foreach (var target in targets)
        {
            var report = new TargetReport(target.Name);
            report.Corpus.AddRange(target.Seeds);
            var kept = Path.Combine(corpusFolder, target.Name);
            if (Directory.Exists(kept))
            {
                report.Corpus.AddRange(Directory.EnumerateFiles(kept).Order(StringComparer.Ordinal).Select(File.ReadAllBytes));
            }

            _targets.Add((target, report));
        }
    }

    /// <summary>What came of each target so far.</summary>
    public IEnumerable<TargetReport> Reports => _targets.Select(one => one.Report);

    /// <summary>What must not be, each kind of it once.</summary>
    public List<FuzzFinding> Findings { get; } = [];

    /// <summary>Folder for inputs with new outcomes; null to keep none.</summary>
    public string? KeepFolder { get; init; }

    /// <summary>Gives every target its corpus once, unchanged.</summary>
    public async Task ReplayAsync()
    {
        foreach (var (target, report) in _targets)
        {
            foreach (var input in report.Corpus.ToList())
            {
                await GiveAsync(target, report, input, isChanged: false);
            }
        }
    }

    /// <summary>Gives every target one changed input.</summary>
    public async Task RoundAsync()
    {
        foreach (var (target, report) in _targets)
        {
            await GiveAsync(target, report, target.Mutate(_mutator, report.Corpus), isChanged: true);
        }
    }

    /// <summary>Gives a target one input.</summary>
    /// <returns>What came of it, what must not be of it (null if nothing) and the processor time of the process meanwhile.</returns>
    public static async Task<(string Outcome, string? Finding, TimeSpan Took)> TryAsync(IFuzzTarget target, byte[] input)
    {
        var prepared = target.Prepare(input);
        using var process = Process.GetCurrentProcess();
        var start = process.TotalProcessorTime;
        string outcome = "";
        string? finding = null;
        try
        {
            outcome = await Task.Run(() => target.RunAsync(prepared)).WaitAsync(Hang);
        }
        catch (TimeoutException)
        {
            finding = $"did not end in {Hang.TotalSeconds} s";
        }
        catch (Exception e)
        {
            finding = $"{e.GetType().Name}: {e.Message.ReplaceLineEndings(" ")} {Place(e)}";
        }

        process.Refresh();
        return (outcome, finding, process.TotalProcessorTime - start);
    }

    private async Task GiveAsync(IFuzzTarget target, TargetReport report, byte[] input, bool isChanged)
    {
        report.Runs++;
        var (outcome, what, took) = await TryAsync(target, input);
        if (what is null && _timed && took > SlowestAllowed)
        {
            (outcome, what, took) = await TryAsync(target, input);
            if (took > SlowestAllowed)
            {
                what ??= FormattableString.Invariant($"took {took.TotalSeconds:0.0} s of processor time ({outcome})");
            }
        }

        report.Slowest = took > report.Slowest ? took : report.Slowest;
        if (what is not null)
        {
            if (Findings.All(one => one.Target != target.Name || one.What != what))
            {
                Findings.Add(new FuzzFinding(target.Name, what, input));
                Keep(target, input, "found-");
            }

            return;
        }

        var isNew = report.Outcomes.TryAdd(outcome, 0);
        report.Outcomes[outcome]++;
        if (isNew && isChanged)
        {
            report.Corpus.Add(input);
            Keep(target, input, "");
        }
    }

    private static string Place(Exception e) =>
        e.StackTrace?.Split('\n').FirstOrDefault(line => line.Contains("CoatScan.", StringComparison.Ordinal))?.Trim().Split(" in ")[0] ?? "";

    private void Keep(IFuzzTarget target, byte[] input, string prefix)
    {
        if (KeepFolder is null)
        {
            return;
        }

        var folder = Directory.CreateDirectory(Path.Combine(KeepFolder, target.Name)).FullName;
        File.WriteAllBytes(Path.Combine(folder, prefix + Convert.ToHexStringLower(SHA256.HashData(input))[..16]), input);
    }
}
