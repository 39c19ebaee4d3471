using CoatScan.Findings;
using CoatScan.FunctionalTests.CommandLine;
using CoatScan.FunctionalTests.Infrastructure;

namespace CoatScan.FunctionalTests.Clients;

/// <summary>Python programs made from the contract, against a running service that asks for keys.</summary>
public sealed class PythonClientTests : IAsyncLifetime
{
    private const string Python = "/usr/bin/python3";

    private readonly TempFolder _temp = new();
    private RunningServer _server = null!;
    private string _keyFile = "";

    private string Generated => Path.Combine(_temp.Path, "generated");

    public async ValueTask InitializeAsync()
    {
        _server = await KeyedServer.StartAsync();
        _keyFile = _temp.Write("key", (await _server.MakeKeyAsync("north", AccessScope.Write)).Text);
        var grpc = await ForeignProgram.TryRunAsync(Python, ["-c", "import grpc"]);
        var plugin = await ForeignProgram.TryRunAsync("grpc_python_plugin", ["--help"]);
        Assert.SkipUnless(grpc?.Code == 0 && plugin is not null, "needs python3-grpcio, protobuf-compiler-grpc and libprotobuf-dev");
        var generate = await ForeignProgram.TryRunAsync(
            "bash", [ForeignProgram.Example("python/generate"), ForeignProgram.GoogleProtos, Generated]);
        Assert.True(generate?.Code == 0, generate?.Error);
    }

    public async ValueTask DisposeAsync()
    {
        await _server.DisposeAsync();
        _temp.Dispose();
    }

    [Fact]
    public async Task Adjuster_uploads_in_chunks_and_reads_the_finding_and_what_came_before()
    {
        // Several chunks, of which the last is not whole.
        var photo = _temp.Write("door.jpg", [.. Panels.FilmLoss, .. new byte[70_000]]);
        var other = _temp.Write("door-2.jpg", Panels.Sound);

        var first = await RunAsync("adjuster.py", photo, other, "--claim", "claim 7", "--panel", "door", "--evidence", "gloss.low");
        var second = await RunAsync("adjuster.py", photo);

        using var caller = _server.As(await File.ReadAllTextAsync(_keyFile, TestContext.Current.CancellationToken));
        var name = first.Lines[0].Split(' ')[0];
        var finding = await caller.Findings.GetFindingAsync(new() { Name = name });
        Assert.Equal($"{name} claim 7", first.Lines[0]);
        Assert.Equal(("claim 7", "door", 2), (finding.ExternalRef, finding.Panel, finding.Photos.Count));
        Assert.Contains($"  {finding.VerdictReasons[0]}", first.Lines);
        Assert.Contains(second.Lines, line => line.Contains($"came before in {name} (same bytes)", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Technician_gets_the_next_test_without_a_photo()
    {
        var run = await RunAsync("technician.py", "form.round_spots", "size.1_to_5_mm", "--film-um", "118", "125");

        Assert.Contains(run.Lines, line => line.StartsWith("next: ", StringComparison.Ordinal));
        Assert.Contains(run.Lines, line => line.EndsWith('%'));
    }

    [Fact]
    public async Task Refused_call_is_one_line_with_code_reason_and_field()
    {
        var unknown = await RunAsync("technician.py", 1, "form.ringz");
        var noPhoto = await RunAsync("adjuster.py", 1, _temp.Write("text.jpg", "no photo"));
        var noKey = await ForeignProgram.TryRunAsync(
            Python, [ForeignProgram.Example("python/technician.py"), Address, "form.rings"], ("PYTHONPATH", Generated));

        Assert.StartsWith("INVALID_ARGUMENT EVIDENCE_UNKNOWN facts.evidence[0]: ", unknown.Error, StringComparison.Ordinal);
        Assert.StartsWith("INVALID_ARGUMENT PHOTO_FORMAT_NOT_ALLOWED chunk: ", noPhoto.Error, StringComparison.Ordinal);
        Assert.Equal(1, noKey!.Code);
        Assert.StartsWith("UNAUTHENTICATED UNAUTHENTICATED : This call needs a credential", noKey.Error, StringComparison.Ordinal);
    }

    private string Address => $"127.0.0.1:{_server.GrpcAddress.Port}";

    private Task<ForeignProgram> RunAsync(string example, params string[] args) => RunAsync(example, 0, args);

    private async Task<ForeignProgram> RunAsync(string example, int code, params string[] args)
    {
        var run = await ForeignProgram.TryRunAsync(
            Python, [ForeignProgram.Example($"python/{example}"), Address, .. args, "--key-file", _keyFile], ("PYTHONPATH", Generated));
        Assert.True(run!.Code == code, run.Error);
        return run;
    }
}
