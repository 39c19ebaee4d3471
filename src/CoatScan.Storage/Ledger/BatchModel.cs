using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Ledger;

/// <summary>The tables of the ledger.</summary>
internal static class BatchModel
{
    public static void Configure(ModelBuilder model)
    {
        model.Entity<BatchRow>(batch =>
        {
            batch.ToTable("batches");
            batch.HasKey(row => new { row.Tenant, row.Id });
            batch.Property(row => row.Id).HasColumnName("id");
            batch.Property(row => row.DisplayName).HasColumnName("display_name");
            batch.Property(row => row.State).HasColumnName("state");
            batch.Property(row => row.ItemCount).HasColumnName("item_count");
            batch.Property(row => row.GradedCount).HasColumnName("graded_count");
            batch.Property(row => row.FailedCount).HasColumnName("failed_count");
            batch.Property(row => row.CancelledCount).HasColumnName("cancelled_count");
            batch.Property(row => row.CreateTimeTicks).HasColumnName("create_time_ticks");
            batch.Property(row => row.FinishTimeTicks).HasColumnName("finish_time_ticks");
            batch.Property(row => row.LastSequence).HasColumnName("last_sequence");
            batch.Property(row => row.AnnouncedSequence).HasColumnName("announced_sequence");
            batch.Property(row => row.Version).HasColumnName("version").IsConcurrencyToken();
            batch.Property(row => row.LastClaimTicks).HasColumnName("last_claim_ticks");
            batch.HasIndex(row => new { row.Tenant, row.CreateTimeTicks, row.Id }).HasDatabaseName("batches_by_time");
            batch.HasIndex(row => new { row.State, row.LastClaimTicks }).HasDatabaseName("batches_by_turn");
            batch.HasIndex(row => row.LastSequence).HasFilter("announced_sequence < last_sequence")
                .HasDatabaseName("batches_to_announce");
        });

        model.Entity<BatchItemRow>(item =>
        {
            item.ToTable("batch_items");
            item.HasKey(row => new { row.Tenant, row.Batch, row.ItemKey });
            item.Property(row => row.Batch).HasColumnName("batch");
            item.Property(row => row.ItemKey).HasColumnName("item_key");
            item.Property(row => row.Position).HasColumnName("position");
            item.Property(row => row.VehicleRef).HasColumnName("vehicle_ref");
            item.Property(row => row.Panel).HasColumnName("panel");
            item.Property(row => row.Given).HasColumnName("given");
            item.Property(row => row.State).HasColumnName("state");
            item.Property(row => row.Attempt).HasColumnName("attempt");
            item.Property(row => row.LostCount).HasColumnName("lost_count");
            item.Property(row => row.DueTicks).HasColumnName("due_ticks");
            item.Property(row => row.LeaseUntilTicks).HasColumnName("lease_until_ticks");
            item.Property(row => row.Worker).HasColumnName("worker");
            item.Property(row => row.Fence).HasColumnName("fence").IsConcurrencyToken();
            item.Property(row => row.FindingId).HasColumnName("finding_id");
            item.Property(row => row.Error).HasColumnName("error");
            item.Property(row => row.Summary).HasColumnName("summary");
            item.Property(row => row.Severity).HasColumnName("severity");
            item.HasIndex(row => new { row.Tenant, row.Batch, row.Position }).IsUnique().HasDatabaseName("batch_items_by_position");
            item.HasIndex(row => new { row.Tenant, row.Batch, row.State, row.LostCount, row.Position })
                .HasDatabaseName("batch_items_by_state");
            item.HasIndex(row => row.LeaseUntilTicks).HasDatabaseName("batch_items_by_lease");
            item.HasIndex(row => new { row.Tenant, row.Batch, row.VehicleRef }).HasDatabaseName("batch_items_by_vehicle");
        });

        model.Entity<BatchEventRow>(one =>
        {
            one.ToTable("batch_events");
            one.HasKey(row => new { row.Tenant, row.Batch, row.Sequence });
            one.Property(row => row.Batch).HasColumnName("batch");
            one.Property(row => row.Sequence).HasColumnName("sequence");
            one.Property(row => row.BatchState).HasColumnName("batch_state");
            one.Property(row => row.GradedCount).HasColumnName("graded_count");
            one.Property(row => row.FailedCount).HasColumnName("failed_count");
            one.Property(row => row.CancelledCount).HasColumnName("cancelled_count");
            one.Property(row => row.FinishTimeTicks).HasColumnName("finish_time_ticks");
            one.Property(row => row.Version).HasColumnName("version");
            one.Property(row => row.ItemKey).HasColumnName("item_key");
            one.Property(row => row.ItemState).HasColumnName("item_state");
            one.Property(row => row.Attempt).HasColumnName("attempt");
            one.Property(row => row.FindingId).HasColumnName("finding_id");
            one.Property(row => row.Error).HasColumnName("error");
        });
    }
}
