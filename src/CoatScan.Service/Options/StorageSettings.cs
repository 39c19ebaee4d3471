using System.ComponentModel.DataAnnotations;

namespace CoatScan.Service.Options;

/// <summary>Where findings and photos are kept and for how long. Section <c>CoatScan:Storage</c>.</summary>
public sealed class StorageSettings
{
    /// <summary>Name of the configuration section.</summary>
    public const string SectionName = "CoatScan:Storage";

    /// <summary>Name of the database in its folder.</summary>
    public const string DatabaseFileName = "coatscan.db";

    /// <summary>Folder of the database; created if missing. Empty means <c>data</c> under the working folder.</summary>
    public string Path { get; set; } = "";

    /// <summary>Days a finding is kept, [1, 36500].</summary>
    [Range(1, 36_500)]
    public int RetentionDays { get; set; } = 365;

    /// <summary>Folder of the photos; created if missing. Empty means <c>photos</c> in the folder of the database.</summary>
    public string PhotoPath { get; set; } = "";

    /// <summary>Days a photo is kept, [1, 36500].</summary>
    [Range(1, 36_500)]
    public int PhotoRetentionDays { get; set; } = 365;
}
