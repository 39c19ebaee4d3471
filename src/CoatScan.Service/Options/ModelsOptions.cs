namespace CoatScan.Service.Options;

/// <summary>Where classifier and knowledge base lie. Section <c>CoatScan:Models</c>.</summary>
public sealed class ModelsOptions
{
    /// <summary>Name of the configuration section.</summary>
    public const string SectionName = "CoatScan:Models";

    /// <summary>Folder with <c>classifier</c> and <c>knowledge</c>; empty means <c>models</c> beside the program.</summary>
    public string Path { get; set; } = "";

    internal string EffectivePath =>
        Path.Length > 0 ? Path : System.IO.Path.Combine(AppContext.BaseDirectory, "models");
}
