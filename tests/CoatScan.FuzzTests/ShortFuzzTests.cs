using System.Diagnostics;
using CoatScan.FuzzTests.Targets;

namespace CoatScan.FuzzTests;

/// <summary>A short run of the fuzzer, the same inputs every time, as many of them as the clock lets it come to.</summary>
public sealed class ShortFuzzTests
{
    // However slow the machine is.
    private const int LeastRounds = 20;

    [Fact]
    public async Task Every_target_answers_kept_and_changed_inputs_with_declared_outcomes()
    {
        await using var targets = await FuzzTargets.StartAsync(["photo", "json", "proto", "page-token", "file"]);
        var fuzzer = new Fuzzer(targets.All, FuzzTargets.CorpusFolder, seed: 20_260_101, timed: false);
        var clock = Stopwatch.StartNew();

        await fuzzer.ReplayAsync();
        for (var round = 0; round < LeastRounds || clock.Elapsed < TimeSpan.FromSeconds(8); round++)
        {
            await fuzzer.RoundAsync();
        }

        Assert.Empty(fuzzer.Findings.Select(found => $"{found.Target}: {found.What} {Convert.ToBase64String(found.Input)}"));
        Assert.All(fuzzer.Reports, report => Assert.True(report.Runs > LeastRounds && report.Outcomes.Count > 1, report.Name));
    }

    [Fact]
    public async Task Every_picture_that_was_kept_is_judged()
    {
        await using var targets = await FuzzTargets.StartAsync(["picture"]);
        var target = targets.All.Single();
        var kept = Directory.GetFiles(Path.Combine(FuzzTargets.CorpusFolder, target.Name));

        Assert.NotEmpty(kept);
        foreach (var path in kept)
        {
            var input = await File.ReadAllBytesAsync(path, TestContext.Current.CancellationToken);
            Assert.StartsWith("judged ", await target.RunAsync(target.Prepare(input)), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Fuzzer_reports_what_throws_once_with_its_input()
    {
        var fuzzer = new Fuzzer([new BrittleTarget()], FuzzTargets.CorpusFolder, seed: 1, timed: false);

        await fuzzer.ReplayAsync();
        for (var i = 0; i < 200; i++)
        {
            await fuzzer.RoundAsync();
        }

        var found = Assert.Single(fuzzer.Findings);
        Assert.StartsWith("UndeclaredOutcomeException: too long", found.What, StringComparison.Ordinal);
        Assert.True(found.Input.Length > 10);
        Assert.Equal(["fine"], fuzzer.Reports.Single().Outcomes.Keys);
    }

    [Fact]
    public async Task Replay_prints_what_came_of_every_input_and_its_time()
    {
        var (output, error) = (new StringWriter(), new StringWriter());

        var code = await ReplayCommand.RunAsync(["page-token", "AAEC", "Zm9v"], output, error);

        Assert.Equal("", error.ToString());
        Assert.Contains("AAEC time 3: ", output.ToString(), StringComparison.Ordinal);
        Assert.Contains("Zm9v time 3: ", output.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", output.ToString(), StringComparison.Ordinal);
        Assert.InRange(code, 0, 1);
    }

    [Theory]
    [InlineData("Targets: photo, picture", "no-such-target", "AAEC")]
    [InlineData("replay TARGET INPUT", "picture")]
    [InlineData("'not base64!' is neither a file nor base64.", "picture", "not base64!")]
    public async Task Replay_says_what_it_does_not_understand(string message, params string[] words)
    {
        var (output, error) = (new StringWriter(), new StringWriter());

        Assert.Equal(2, await ReplayCommand.RunAsync(words, output, error));
        Assert.Contains(message, error.ToString(), StringComparison.Ordinal);
        Assert.Empty(output.ToString());
    }

    [Fact]
    public void Repair_of_a_changed_png_makes_its_check_sums_right_again()
    {
        var png = Imaging.PhotoEncoder.EncodePng(new byte[16 * 16 * 3], 16, 16);
        var changed = (byte[])png.Clone();
        changed[^1] ^= 1;

        // The last four bytes are the check sum of the last chunk.
        Assert.Equal(png, PngChecksums.Repair(changed));
        Assert.Equal(png, PngChecksums.Repair(png));
    }

    private sealed class BrittleTarget : IFuzzTarget
    {
        public string Name => "brittle";

        public IEnumerable<byte[]> Seeds => [[1, 2, 3, 4, 5, 6, 7, 8]];

        public byte[] Mutate(Mutator mutator, IReadOnlyList<byte[]> corpus) => mutator.Change(mutator.Pick(corpus), corpus);

        public Task<string> RunAsync(byte[] prepared) =>
            prepared.Length > 10 ? throw new UndeclaredOutcomeException("too long") : Task.FromResult("fine");
    }
}
