using CoatScan.Storage.Ledger;
using CoatScan.Storage.Photos;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage;

/// <summary>The tables, and the one place that keeps tenants apart.</summary>
/// <remarks>
/// Every row of <see cref="ITenantRow"/> is filled in with the current tenant when it is added, and no query sees a row of
/// another one unless it says <c>IgnoreQueryFilters</c>, which only housekeeping over all tenants may. The tables as such are
/// those of SQLite; <see cref="Engines.PostgresContext"/> is the same for PostgreSQL, with migrations of its own.
/// </remarks>
internal class FindingContext(DbContextOptions options) : DbContext(options)
{
    /// <summary>Id of the tenant whose rows are seen and added; set by <see cref="FindingDatabase"/>.</summary>
    public string Tenant { get; set; } = "";

    /// <summary>Who acts, for the audit log; set by <see cref="FindingDatabase"/>.</summary>
    public string Actor { get; set; } = "";

    public DbSet<FindingRow> Findings => Set<FindingRow>();

    public DbSet<RequestKeyRow> RequestKeys => Set<RequestKeyRow>();

    public DbSet<PhotoRow> Photos => Set<PhotoRow>();

    public DbSet<FindingPhotoRow> FindingPhotos => Set<FindingPhotoRow>();

    public DbSet<AuditRow> AuditEntries => Set<AuditRow>();

    public DbSet<ApiKeyRow> ApiKeys => Set<ApiKeyRow>();

    public DbSet<BatchRow> Batches => Set<BatchRow>();

    public DbSet<BatchItemRow> BatchItems => Set<BatchItemRow>();

    public DbSet<BatchEventRow> BatchEvents => Set<BatchEventRow>();

    public override Task<int> SaveChangesAsync(
        bool acceptAllChangesOnSuccess, CancellationToken cancellationToken = default)
    {
        foreach (var entry in ChangeTracker.Entries<ITenantRow>().Where(entry => entry.State == EntityState.Added))
        {
            entry.Entity.Tenant = Tenant;
        }

        return base.SaveChangesAsync(acceptAllChangesOnSuccess, cancellationToken);
    }

    protected override void OnModelCreating(ModelBuilder modelBuilder)
    {
        modelBuilder.Entity<FindingRow>(finding =>
        {
            finding.ToTable("findings");
            finding.HasKey(row => row.Id);
            finding.Property(row => row.Id).HasColumnName("id");
            finding.Property(row => row.CreateTimeTicks).HasColumnName("create_time_ticks");
            finding.Property(row => row.Verdict).HasColumnName("verdict");
            finding.Property(row => row.Panel).HasColumnName("panel");
            finding.Property(row => row.ExternalRef).HasColumnName("external_ref");
            finding.Property(row => row.TopCondition).HasColumnName("top_condition");
            finding.Property(row => row.Document).HasColumnName("document");
            finding.Property(row => row.Given).HasColumnName("given");
            finding.Property(row => row.BatchItem).HasColumnName("batch_item");
            finding.HasIndex(row => new { row.Tenant, row.CreateTimeTicks, row.Id }).HasDatabaseName("findings_by_time");
            finding.HasIndex(row => new { row.Tenant, row.ExternalRef, row.CreateTimeTicks }).HasDatabaseName("findings_by_reference");
            // The last wall against a second finding of one item, below all that the code may get wrong.
            finding.HasIndex(row => new { row.Tenant, row.BatchItem }).IsUnique().HasDatabaseName("findings_by_batch_item");
        });

        modelBuilder.Entity<RequestKeyRow>(key =>
        {
            key.ToTable("request_keys");
            key.HasKey(row => new { row.Tenant, row.RequestId });
            key.Property(row => row.RequestId).HasColumnName("request_id");
            key.Property(row => row.RequestHash).HasColumnName("request_hash");
            key.Property(row => row.FindingId).HasColumnName("finding_id");
            key.Property(row => row.CreateTimeTicks).HasColumnName("create_time_ticks");
            key.HasIndex(row => row.CreateTimeTicks).HasDatabaseName("request_keys_by_time");
            key.HasIndex(row => row.FindingId).HasDatabaseName("request_keys_by_finding");
        });

        modelBuilder.Entity<PhotoRow>(photo =>
        {
            photo.ToTable("photos");
            photo.HasKey(row => new { row.Tenant, row.Sha256 });
            photo.Property(row => row.Sha256).HasColumnName("sha256");
            photo.Property(row => row.SizeBytes).HasColumnName("size_bytes");
            photo.Property(row => row.MediaType).HasColumnName("media_type");
            photo.Property(row => row.WidthPx).HasColumnName("width_px");
            photo.Property(row => row.HeightPx).HasColumnName("height_px");
            photo.Property(row => row.DisplayName).HasColumnName("display_name");
            photo.Property(row => row.CaptureTime).HasColumnName("capture_time");
            photo.Property(row => row.PerceptualHash).HasColumnName("perceptual_hash");
            photo.Property(row => row.CreateTimeTicks).HasColumnName("create_time_ticks");
            photo.Property(row => row.ExpireTimeTicks).HasColumnName("expire_time_ticks");
            photo.Property(row => row.DeleteTimeTicks).HasColumnName("delete_time_ticks");
            photo.HasIndex(row => row.ExpireTimeTicks).HasDatabaseName("photos_by_expiry");
            photo.HasIndex(row => row.DeleteTimeTicks).HasDatabaseName("photos_by_deletion");
            photo.HasIndex(row => new { row.Tenant, row.PerceptualHash }).HasDatabaseName("photos_by_look");
        });

        modelBuilder.Entity<FindingPhotoRow>(photo =>
        {
            photo.ToTable("finding_photos");
            photo.HasKey(row => new { row.FindingId, row.PhotoIndex });
            photo.Property(row => row.FindingId).HasColumnName("finding_id");
            photo.Property(row => row.PhotoIndex).HasColumnName("photo_index");
            photo.Property(row => row.Sha256).HasColumnName("sha256");
            photo.Property(row => row.PerceptualHash).HasColumnName("perceptual_hash");
            photo.Property(row => row.CaptureTime).HasColumnName("capture_time");
            photo.Property(row => row.CreateTimeTicks).HasColumnName("create_time_ticks");
            photo.HasIndex(row => new { row.Tenant, row.Sha256 }).HasDatabaseName("finding_photos_by_digest");
            photo.HasIndex(row => new { row.Tenant, row.PerceptualHash }).HasDatabaseName("finding_photos_by_look");
        });

        modelBuilder.Entity<AuditRow>(entry =>
        {
            entry.ToTable("audit_entries");
            entry.HasKey(row => row.Sequence);
            entry.Property(row => row.Sequence).HasColumnName("sequence").ValueGeneratedNever();
            entry.Property(row => row.Time).HasColumnName("time");
            entry.Property(row => row.Action).HasColumnName("action");
            entry.Property(row => row.Resource).HasColumnName("resource");
            entry.Property(row => row.Outcome).HasColumnName("outcome");
            entry.Property(row => row.Tenant).HasColumnName("tenant");
            entry.Property(row => row.Actor).HasColumnName("actor");
            entry.Property(row => row.PreviousHash).HasColumnName("previous_hash");
            entry.Property(row => row.Hash).HasColumnName("hash");
        });

        modelBuilder.Entity<ApiKeyRow>(key =>
        {
            key.ToTable("api_keys");
            key.HasKey(row => row.Id);
            key.Property(row => row.Id).HasColumnName("id");
            key.Property(row => row.SecretHash).HasColumnName("secret_hash");
            key.Property(row => row.Scope).HasColumnName("scope");
            key.Property(row => row.DisplayName).HasColumnName("display_name");
            key.Property(row => row.CreateTimeTicks).HasColumnName("create_time_ticks");
            key.Property(row => row.ExpireTimeTicks).HasColumnName("expire_time_ticks");
            key.Property(row => row.RevokeTimeTicks).HasColumnName("revoke_time_ticks");
        });

        BatchModel.Configure(modelBuilder);
        HashDistance.MapTo(modelBuilder);
        KeepTenantsApart<FindingRow>(modelBuilder);
        KeepTenantsApart<RequestKeyRow>(modelBuilder);
        KeepTenantsApart<PhotoRow>(modelBuilder);
        KeepTenantsApart<FindingPhotoRow>(modelBuilder);
        KeepTenantsApart<ApiKeyRow>(modelBuilder);
        KeepTenantsApart<BatchRow>(modelBuilder);
        KeepTenantsApart<BatchItemRow>(modelBuilder);
        KeepTenantsApart<BatchEventRow>(modelBuilder);
    }

    private void KeepTenantsApart<TRow>(ModelBuilder modelBuilder)
        where TRow : class, ITenantRow
    {
        modelBuilder.Entity<TRow>().Property(row => row.Tenant).HasColumnName("tenant");
        modelBuilder.Entity<TRow>().HasQueryFilter(row => row.Tenant == Tenant);
    }
}
