using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage;

/// <summary>The tables.</summary>
internal sealed class FindingContext(DbContextOptions<FindingContext> options) : DbContext(options)
{
    public DbSet<FindingRow> Findings => Set<FindingRow>();

    public DbSet<RequestKeyRow> RequestKeys => Set<RequestKeyRow>();

    public DbSet<AuditRow> AuditEntries => Set<AuditRow>();

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
            finding.HasIndex(row => new { row.CreateTimeTicks, row.Id }).HasDatabaseName("findings_by_time");
        });

        modelBuilder.Entity<RequestKeyRow>(key =>
        {
            key.ToTable("request_keys");
            key.HasKey(row => row.RequestId);
            key.Property(row => row.RequestId).HasColumnName("request_id");
            key.Property(row => row.RequestHash).HasColumnName("request_hash");
            key.Property(row => row.FindingId).HasColumnName("finding_id");
            key.Property(row => row.CreateTimeTicks).HasColumnName("create_time_ticks");
            key.HasIndex(row => row.CreateTimeTicks).HasDatabaseName("request_keys_by_time");
            key.HasIndex(row => row.FindingId).HasDatabaseName("request_keys_by_finding");
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
            entry.Property(row => row.PreviousHash).HasColumnName("previous_hash");
            entry.Property(row => row.Hash).HasColumnName("hash");
        });
    }
}
