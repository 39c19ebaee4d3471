using System.Net;
using CoatScan.FunctionalTests.Infrastructure;
using Grpc.Core;

namespace CoatScan.FunctionalTests.Server;

/// <summary>Bytes that are no message of their rpc: found by the fuzzer, which got UNKNOWN and errors without a reason.</summary>
public sealed class UnreadableRequestTests(SharedServer shared)
{
    public static TheoryData<string> Rpcs() =>
    [
        .. EveryCall.Services().SelectMany(service => service.Methods).Select(method => $"/{method.Service.FullName}/{method.Name}"),
    ];

    [Theory]
    [MemberData(nameof(Rpcs))]
    public async Task Every_rpc_refuses_bytes_that_are_no_message_with_a_reason(string rpc)
    {
        // Field 1, length-delimited, 100 bytes long, of which one comes.
        var error = await EveryCall.CallAsync(shared.Server.Channel, rpc, [0x0A, 100, 1]);

        Assert.NotNull(error);
        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
        Assert.Equal("FIELD_INVALID", error.GetRpcStatus()!.Info().Reason);
        Assert.Contains("no message of this rpc", error.Status.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("POST", "/v1/findings:rank", "{")]
    [InlineData("POST", "/v1/findings:rank", "")]
    [InlineData("POST", "/v1/findings:rank", "[]")]
    [InlineData("POST", "/v1/findings:rank", """{"facts":{"evidence":7}}""")]
    [InlineData("POST", "/v1/findings:analyze", """{"photo":{"content":"*"}}""")]
    [InlineData("GET", "/v1/findings?pageSize=many", null)]
    [InlineData("GET", "/v1/batches/lot-1/items?states=FAILED", null)]
    public async Task Json_that_is_no_request_is_refused_with_a_reason(string method, string path, string? body)
    {
        var (reason, answer) = await Errors.OfJsonAsync(shared.Server.Http, new HttpMethod(method), path, body, HttpStatusCode.BadRequest);

        Assert.Equal("FIELD_INVALID", reason);
        Assert.NotEmpty(answer.GetProperty("message").GetString()!);
    }
}
