using System.Text.RegularExpressions;
using Google.Api;
using Microsoft.AspNetCore.Grpc.JsonTranscoding;
using Microsoft.AspNetCore.Mvc.ApiExplorer;

namespace CoatScan.Service.Hosting;

/// <summary>
/// Writes resource paths out for the OpenAPI document: <c>{name=findings/*}</c> is <c>findings/{finding}</c>. The
/// generator makes <c>{name}</c> of every one of them, and then two resources share a path.
/// </summary>
internal sealed partial class ResourcePaths : IApiDescriptionProvider
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
        HttpRule.PatternOneofCase.Post => rule.Post,
        _ => null,
    };

    private static void WriteOut(ApiDescription description, string pattern)
    {
        if (ResourceVariable().Match(pattern) is not { Success: true } found)
        {
            return;
        }

        var plural = found.Groups["plural"].Value;
        var resource = plural.EndsWith("ches", StringComparison.Ordinal) ? plural[..^2] : plural[..^1];
        description.RelativePath =
            $"{pattern[1..found.Index]}{plural}/{{{resource}}}{pattern[(found.Index + found.Length)..]}";
        foreach (var parameter in description.ParameterDescriptions
            .Where(parameter => parameter.Name == found.Groups["field"].Value))
        {
            parameter.Name = resource;
        }
    }

    [GeneratedRegex(@"\{(?<field>name|parent)=(?<plural>[a-z]+s)/\*\}")]
    private static partial Regex ResourceVariable();
}
