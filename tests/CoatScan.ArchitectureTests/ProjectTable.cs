namespace CoatScan.ArchitectureTests;

/// <summary>Which project may know which: the arrows of the house. A new project needs a row.</summary>
internal static class ProjectTable
{
    /// <summary>The projects under src, lowest first: a project may only reference what stands above it.</summary>
    public static readonly IReadOnlyList<ProjectRow> Rows =
    [
        new("Findings", []),
        new("Metrics", ["Findings"]),
        new("Imaging", ["Findings", "Metrics"]),
        new("Classification", ["Findings", "Metrics"]),
        new("Diagnosis", ["Findings"]),
        new("Inspection", ["Findings", "Metrics", "Imaging", "Classification", "Diagnosis"]),
        new("Batches", ["Findings", "Diagnosis"]),
        new("Storage", ["Findings", "Batches"]),
        // It needs pixels of the photos that its sheets show.
        new("Reports", ["Findings", "Imaging"]),
        new("Client", []),
        new("Service", ["Findings", "Inspection", "Batches", "Storage", "Reports", "Client"])
        {
            // It puts the stages together and reports their versions; the project reference comes with Inspection.
            AlsoKnows = ["Metrics", "Imaging", "Classification", "Diagnosis"],
        },
        new("Cli", ["Client", "Reports", "Service"])
        {
            // It writes the scale card to a file, which takes no service; the project references come with Service.
            AlsoKnows = ["Findings", "Imaging"],
        },
        new("DemoPanels", ["Findings", "Metrics", "Imaging"]),
        // It judges a model by what the whole product says with it.
        new("Training", ["Findings", "Metrics", "Imaging", "Classification", "Diagnosis", "Inspection", "DemoPanels"]),
    ];

    /// <summary>Who may use which family of packages, by the start of package id and namespace.</summary>
    public static readonly IReadOnlyDictionary<string, string[]> PackageOwners = new Dictionary<string, string[]>
    {
        ["SixLabors.ImageSharp"] = ["Imaging"],
        ["PDFsharp"] = ["Imaging", "Reports"],
        ["PdfSharp"] = ["Imaging", "Reports"],
        ["ZXing"] = ["Imaging"],
        ["Microsoft.ML"] = ["Classification", "Training"],
        ["SkiaSharp"] = ["Classification"],
        ["Microsoft.EntityFrameworkCore"] = ["Storage"],
        ["Microsoft.Data.Sqlite"] = ["Storage"],
        ["YamlDotNet"] = ["Diagnosis"],
        ["Json.Schema"] = ["Diagnosis"],
        ["JsonSchema.Net"] = ["Diagnosis"],
        ["Google.Protobuf"] = ["Client", "Service", "Cli"],
        ["Google.Api.CommonProtos"] = ["Client", "Service", "Cli"],
        ["Grpc"] = ["Client", "Service", "Cli"],
        ["OpenTelemetry"] = ["Service"],
        ["Spectre.Console"] = ["Cli"],
        ["System.CommandLine"] = ["Cli"],
    };

    public static ProjectRow? Find(string name) => Rows.SingleOrDefault(row => row.Name == name);
}
