using CoatScan.Service.Options;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.Extensions.Options;

namespace CoatScan.Service.Hosting;

/// <summary>gRPC's message limit does not hold for JSON, so the body limit has to fit the same photos in base64.</summary>
internal sealed class JsonBodyLimit(RequestDelegate next, IOptions<AnalysisOptions> limits)
{
    public Task InvokeAsync(HttpContext context)
    {
        var isGrpc = context.Request.ContentType?.StartsWith("application/grpc", StringComparison.OrdinalIgnoreCase);
        if (isGrpc is not true &&
            context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } feature)
        {
            feature.MaxRequestBodySize = limits.Value.MaxJsonBodyBytes;
        }

        return next(context);
    }
}
