using System.ComponentModel.DataAnnotations;

namespace CoatScan.Storage;

/// <summary>Where findings and photos are kept, and for how long.</summary>
public sealed class StorageOptions
{
    /// <summary>Path of the SQLite file; its folder is made if it is missing. Required, because the photos lie beside it.</summary>
    [Required(AllowEmptyStrings = false)]
    public string Path { get; set; } = "";

    /// <summary>Connection string of a PostgreSQL database to keep everything but the photos' bytes in, for example
    /// <c>Host=db;Database=coatscan;Username=coatscan;Password=...</c>; empty for the SQLite file.</summary>
    public string PostgresConnection { get; set; } = "";

    /// <summary>Age at which <see cref="FindingStore.PurgeAsync"/> deletes a finding, days, [1, 36500].</summary>
    [Range(1, 36_500)]
    public int RetentionDays { get; set; } = 365;

    /// <summary>Folder of the photos, made if it is missing; empty means <c>photos</c> beside the SQLite file. Machines that
    /// share a database share this folder too.</summary>
    public string PhotoPath { get; set; } = "";

    /// <summary>Age at which a photo is marked for removal, days, [1, 36500].</summary>
    [Range(1, 36_500)]
    public int PhotoRetentionDays { get; set; } = 365;

    /// <summary>How long a call waits while another process writes, milliseconds, [1, 60000].</summary>
    [Range(1, 60_000)]
    public int BusyTimeoutMs { get; set; } = 5_000;
}
