using CoatScan.Service.Photos;
using Microsoft.OpenApi.Models;
using Swashbuckle.AspNetCore.SwaggerGen;

namespace CoatScan.Service.Hosting;

/// <summary>Adds the upload route to the OpenAPI document, which is made from the contract and so does not know it.</summary>
internal sealed class UploadRouteDocument : IDocumentFilter
{
    /// <inheritdoc />
    public void Apply(OpenApiDocument swaggerDoc, DocumentFilterContext context)
    {
        var photo = context.SchemaGenerator.GenerateSchema(typeof(V1.Photo), context.SchemaRepository);
        var error = context.SchemaGenerator.GenerateSchema(typeof(Google.Rpc.Status), context.SchemaRepository);
        var operation = new OpenApiOperation
        {
            Tags = [new OpenApiTag { Name = "PhotoService" }],
            Summary = "Uploads one photo. The body is the bytes of a JPEG or PNG; equal bytes again give the same photo.",
            Parameters =
            [
                Parameter(
                    PhotoUploadRoute.DigestHeader,
                    ParameterLocation.Header,
                    "SHA-256 of the body, 64 lower-case hex digits; checked when set."),
                Parameter(
                    PhotoUploadRoute.DisplayNameParameter,
                    ParameterLocation.Query,
                    "Name for people, at most 255 characters; never used as a path."),
            ],
            RequestBody = new OpenApiRequestBody
            {
                Required = true,
                Content =
                {
                    ["application/octet-stream"] = new OpenApiMediaType
                    {
                        Schema = new OpenApiSchema { Type = "string", Format = "binary" },
                    },
                },
            },
            Responses = new OpenApiResponses
            {
                ["200"] = Response("OK", photo),
                ["default"] = Response("Error; 408 when the bytes come too slowly.", error),
            },
        };
        swaggerDoc.Paths[PhotoUploadRoute.Path] = new OpenApiPathItem
        {
            Operations = { [OperationType.Post] = operation },
        };
    }

    private static OpenApiParameter Parameter(string name, ParameterLocation place, string description) => new()
    {
        Name = name,
        In = place,
        Description = description,
        Schema = new OpenApiSchema { Type = "string" },
    };

    private static OpenApiResponse Response(string description, OpenApiSchema schema) => new()
    {
        Description = description,
        Content = { ["application/json"] = new OpenApiMediaType { Schema = schema } },
    };
}
