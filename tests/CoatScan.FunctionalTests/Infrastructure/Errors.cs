using System.Net;
using System.Text.Json;
using Google.Rpc;
using Grpc.Core;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>Reads errors as a client does.</summary>
internal static class Errors
{
    /// <summary>Calls, expects a refusal and returns its status with details.</summary>
    public static async Task<Google.Rpc.Status> OfAsync<T>(Func<AsyncUnaryCall<T>> call)
    {
        var exception = await Assert.ThrowsAsync<RpcException>(async () => await call());
        return exception.GetRpcStatus() ?? throw new Xunit.Sdk.XunitException($"No rich status: {exception.Status}");
    }

    /// <summary>The one ErrorInfo that every status must carry.</summary>
    public static ErrorInfo Info(this Google.Rpc.Status status) =>
        Assert.Single(status.Details, detail => detail.Is(ErrorInfo.Descriptor)).Unpack<ErrorInfo>();

    /// <summary>The field at fault.</summary>
    public static string Field(this Google.Rpc.Status status) =>
        Assert.Single(status.GetDetail<BadRequest>()!.FieldViolations).Field;

    /// <summary>The field at fault, as a JSON body names it.</summary>
    public static string FieldOf(JsonElement body) =>
        Assert.Single(Detail(body, "BadRequest").GetProperty("fieldViolations").EnumerateArray())
            .GetProperty("field").GetString()!;

    /// <summary>The one detail of a type in a JSON body.</summary>
    public static JsonElement Detail(JsonElement body, string type) =>
        Assert.Single(
            body.GetProperty("details").EnumerateArray(),
            detail => detail.GetProperty("@type").GetString() == $"type.googleapis.com/google.rpc.{type}");

    /// <summary>Sends JSON, expects an HTTP status, and returns the reason in its ErrorInfo and the whole body.</summary>
    public static async Task<(string Reason, JsonElement Body)> OfJsonAsync(
        HttpClient http,
        HttpMethod method,
        string path,
        string? json,
        HttpStatusCode expected)
    {
        using var request = new HttpRequestMessage(method, path);
        if (json is not null)
        {
            request.Content = new StringContent(json, null, "application/json");
        }

        using var response = await http.SendAsync(request, TestContext.Current.CancellationToken);
        var text = await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(expected == response.StatusCode, $"{(int)response.StatusCode}: {text}");
        var body = JsonDocument.Parse(text).RootElement;
        var info = Detail(body, "ErrorInfo");
        Assert.Equal("coatscan.example", info.GetProperty("domain").GetString());
        return (info.GetProperty("reason").GetString()!, body);
    }
}
