using System.Text.Json;
using CoatScan.Findings;
using CoatScan.FunctionalTests.CommandLine;
using CoatScan.FunctionalTests.Infrastructure;

namespace CoatScan.FunctionalTests.Clients;

/// <summary>JavaScript programs that read the contract, against a running service that asks for keys.</summary>
public sealed class JavaScriptClientTests : IAsyncLifetime
{
    private readonly TempFolder _temp = new();
    private RunningServer _server = null!;
    private string _keyFile = "";

    private string Address => $"127.0.0.1:{_server.GrpcAddress.Port}";

    public async ValueTask InitializeAsync()
    {
        _server = await KeyedServer.StartAsync();
        _keyFile = _temp.Write("key", (await _server.MakeKeyAsync("north", AccessScope.Write)).Text);
        var grpc = await ForeignProgram.TryRunAsync("node", ["-e", "require('@grpc/grpc-js'); require('@grpc/proto-loader')"]);
        Assert.SkipUnless(grpc?.Code == 0, "needs node, and NODE_PATH with what demo/clients/javascript/package.json names");
    }

    public async ValueTask DisposeAsync()
    {
        await _server.DisposeAsync();
        _temp.Dispose();
    }

    [Fact]
    public async Task Shop_app_gets_codes()
    {
        var run = await RunAsync("shop-app.js", 0, _temp.Write("hood.jpg", [.. Panels.FilmLoss, .. new byte[70_000]]));

        var codes = JsonDocument.Parse(run.Out).RootElement;
        using var caller = _server.As(await File.ReadAllTextAsync(_keyFile, TestContext.Current.CancellationToken));
        var finding = await caller.Findings.GetFindingAsync(new() { Name = codes.GetProperty("finding").GetString() });
        Assert.Equal(finding.Conditions[0].Condition, codes.GetProperty("conditions")[0].GetProperty("condition").GetString());
        Assert.Equal(finding.Conditions[0].Probability, codes.GetProperty("conditions")[0].GetProperty("probability").GetDouble());
        Assert.StartsWith("VERDICT_", codes.GetProperty("verdict").GetString(), StringComparison.Ordinal);
        Assert.Equal(finding.NextTests[0].Test, codes.GetProperty("nextTest").GetString());
    }

    [Fact]
    public async Task Grading_shop_sends_a_folder_watches_it_and_reads_the_worst_vehicle_first()
    {
        _temp.Write("lots/lot-1/door.jpg", Panels.Sound);
        _temp.Write("lots/lot-2/hood.jpg", Panels.FilmLoss);
        _temp.Write("lots/lot-2/roof.jpg", Panels.SoundFromElsewhere);

        var run = await RunAsync("grading-shop.js", 0, Path.Combine(_temp.Path, "lots"));

        Assert.Equal(5, run.Lines.Length);
        Assert.All(run.Lines[..3], line => Assert.Matches("^[123] of 3: lot-[12] (door|hood|roof) STATE_GRADED$", line));
        Assert.StartsWith("lot-2: hood: ", run.Lines[3], StringComparison.Ordinal);
        Assert.StartsWith("lot-1: door: ", run.Lines[4], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Refused_call_is_one_line_with_code_reason_and_field()
    {
        var photo = _temp.Write("text.jpg", "no photo");
        var run = await RunAsync("shop-app.js", 1, photo);
        var noKey = await ForeignProgram.TryRunAsync(
            "node", [ForeignProgram.Example("javascript/shop-app.js"), Address, photo], ("GOOGLE_PROTOS", ForeignProgram.GoogleProtos));

        Assert.StartsWith("INVALID_ARGUMENT PHOTO_FORMAT_NOT_ALLOWED chunk: ", run.Error, StringComparison.Ordinal);
        Assert.Equal(1, noKey!.Code);
        Assert.StartsWith("UNAUTHENTICATED UNAUTHENTICATED : This call needs a credential", noKey.Error, StringComparison.Ordinal);
    }

    private async Task<ForeignProgram> RunAsync(string example, int code, params string[] args)
    {
        var run = await ForeignProgram.TryRunAsync(
            "node",
            [ForeignProgram.Example($"javascript/{example}"), Address, .. args, "--key-file", _keyFile],
            ("GOOGLE_PROTOS", ForeignProgram.GoogleProtos));
        Assert.True(run!.Code == code, run.Error);
        return run;
    }
}
