using Google.Api;
using Microsoft.AspNetCore.Grpc.JsonTranscoding;
using Microsoft.AspNetCore.Mvc.ApiExplorer;

namespace CoatScan.Service.Hosting;

/// <summary>
/// Writes resource paths out for the OpenAPI document: <c>{name=findings/*}</c> is <c>findings/{finding}</c>. The
/// generator makes <c>{name}</c> of every one of them, and then two resources share a path.
/// </summary>
internal sealed class ResourcePaths : IApiDescriptionProvider
{
    /// <inheritdoc />
    public int Order => int.MaxValue;

    /// <inheritdoc />
    public void OnProvidersExecuting(ApiDescriptionProviderContext context)
    {
    }

    /// <inheritdoc />
    public void OnProvidersExecuted(ApiDescriptionProviderContext context)
    {
        foreach (var description in context.Results)
        {
            var rule = description.ActionDescriptor.EndpointMetadata
                .OfType<GrpcJsonTranscodingMetadata>().FirstOrDefault()?.HttpRule;
            if (rule is not null && Pattern(rule) is { } pattern)
            {
                WriteOut(description, pattern);
            }
        }
    }

    private static string? Pattern(HttpRule rule) => rule.PatternCase switch
    {
        HttpRule.PatternOneofCase.Get => rule.Get,
        HttpRule.PatternOneofCase.Delete => rule.Delete,
        _ => null,
    };

    private static void WriteOut(ApiDescription description, string pattern)
    {
        const string start = "{name=";
        const string end = "s/*}";
        var open = pattern.IndexOf(start, StringComparison.Ordinal);
        var close = pattern.IndexOf(end, StringComparison.Ordinal);
        if (open < 0 || close < open)
        {
            return;
        }

        var resource = pattern[(open + start.Length)..close];
        description.RelativePath = $"{pattern[1..open]}{resource}s/{{{resource}}}{pattern[(close + end.Length)..]}";
        foreach (var parameter in description.ParameterDescriptions.Where(parameter => parameter.Name == "name"))
        {
            parameter.Name = resource;
        }
    }
}
