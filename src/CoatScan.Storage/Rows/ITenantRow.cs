namespace CoatScan.Storage.Rows;

/// <summary>A row that belongs to one tenant. <see cref="FindingContext"/> fills it in and filters by it.</summary>
internal interface ITenantRow
{
    /// <summary>Id of the tenant; filled in when the row is added.</summary>
    string Tenant { get; set; }
}
