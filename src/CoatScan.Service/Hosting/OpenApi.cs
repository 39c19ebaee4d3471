using Microsoft.AspNetCore.Mvc.ApiExplorer;
using Microsoft.OpenApi.Models;

namespace CoatScan.Service.Hosting;

/// <summary>The OpenAPI document of the JSON endpoint, made from the contract.</summary>
internal static class OpenApi
{
    private const string DocumentName = "v1";

    public static void AddOpenApiDocument(this IServiceCollection services)
    {
        services.AddGrpcSwagger();
        services.AddSingleton<IApiDescriptionProvider, ResourcePaths>();
        services.AddSwaggerGen(options =>
        {
            options.DocumentFilter<UploadRouteDocument>();
            options.SwaggerDoc(DocumentName, new OpenApiInfo
            {
                Title = "CoatScan",
                Version = DocumentName,
                Description = "What is wrong with a painted vehicle panel, why, who answers, what to do and how sure that is.",
            });

            // The states of a batch and of an item are two types of one name.
            var standard = options.SchemaGeneratorOptions.SchemaIdSelector;
            options.CustomSchemaIds(type =>
                type.DeclaringType?.DeclaringType is { } outer ? outer.Name + type.Name : standard(type));
        });
    }

    public static IEndpointConventionBuilder MapOpenApiDocument(this IEndpointRouteBuilder endpoints) =>
        endpoints.MapSwagger("/openapi/{documentName}.json");
}
