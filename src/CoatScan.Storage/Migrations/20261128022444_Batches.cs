using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CoatScan.Storage.Migrations
{
    /// <summary>The ledger of batches, and the item that a finding belongs to.</summary>
    internal sealed partial class Batches : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "batch_item",
                table: "findings",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "batch_events",
                columns: table => new
                {
                    tenant = table.Column<string>(type: "TEXT", nullable: false),
                    batch = table.Column<string>(type: "TEXT", nullable: false),
                    sequence = table.Column<long>(type: "INTEGER", nullable: false),
                    batch_state = table.Column<int>(type: "INTEGER", nullable: false),
                    graded_count = table.Column<int>(type: "INTEGER", nullable: false),
                    failed_count = table.Column<int>(type: "INTEGER", nullable: false),
                    cancelled_count = table.Column<int>(type: "INTEGER", nullable: false),
                    finish_time_ticks = table.Column<long>(type: "INTEGER", nullable: true),
                    version = table.Column<long>(type: "INTEGER", nullable: false),
                    item_key = table.Column<string>(type: "TEXT", nullable: true),
                    item_state = table.Column<int>(type: "INTEGER", nullable: true),
                    attempt = table.Column<int>(type: "INTEGER", nullable: true),
                    finding_id = table.Column<string>(type: "TEXT", nullable: true),
                    error = table.Column<string>(type: "TEXT", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batch_events", x => new { x.tenant, x.batch, x.sequence });
                });

            migrationBuilder.CreateTable(
                name: "batch_items",
                columns: table => new
                {
                    tenant = table.Column<string>(type: "TEXT", nullable: false),
                    batch = table.Column<string>(type: "TEXT", nullable: false),
                    item_key = table.Column<string>(type: "TEXT", nullable: false),
                    position = table.Column<int>(type: "INTEGER", nullable: false),
                    vehicle_ref = table.Column<string>(type: "TEXT", nullable: false),
                    panel = table.Column<string>(type: "TEXT", nullable: false),
                    given = table.Column<string>(type: "TEXT", nullable: false),
                    state = table.Column<int>(type: "INTEGER", nullable: false),
                    attempt = table.Column<int>(type: "INTEGER", nullable: false),
                    lost_count = table.Column<int>(type: "INTEGER", nullable: false),
                    due_ticks = table.Column<long>(type: "INTEGER", nullable: false),
                    lease_until_ticks = table.Column<long>(type: "INTEGER", nullable: true),
                    lease_ticks = table.Column<long>(type: "INTEGER", nullable: false),
                    worker = table.Column<string>(type: "TEXT", nullable: false),
                    fence = table.Column<long>(type: "INTEGER", nullable: false),
                    finding_id = table.Column<string>(type: "TEXT", nullable: true),
                    error = table.Column<string>(type: "TEXT", nullable: true),
                    summary = table.Column<string>(type: "TEXT", nullable: true),
                    severity = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batch_items", x => new { x.tenant, x.batch, x.item_key });
                });

            migrationBuilder.CreateTable(
                name: "batches",
                columns: table => new
                {
                    tenant = table.Column<string>(type: "TEXT", nullable: false),
                    id = table.Column<string>(type: "TEXT", nullable: false),
                    display_name = table.Column<string>(type: "TEXT", nullable: false),
                    state = table.Column<int>(type: "INTEGER", nullable: false),
                    item_count = table.Column<int>(type: "INTEGER", nullable: false),
                    graded_count = table.Column<int>(type: "INTEGER", nullable: false),
                    failed_count = table.Column<int>(type: "INTEGER", nullable: false),
                    cancelled_count = table.Column<int>(type: "INTEGER", nullable: false),
                    create_time_ticks = table.Column<long>(type: "INTEGER", nullable: false),
                    finish_time_ticks = table.Column<long>(type: "INTEGER", nullable: true),
                    last_sequence = table.Column<long>(type: "INTEGER", nullable: false),
                    version = table.Column<long>(type: "INTEGER", nullable: false),
                    last_claim_ticks = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batches", x => new { x.tenant, x.id });
                });

            migrationBuilder.CreateIndex(
                name: "findings_by_batch_item",
                table: "findings",
                columns: new[] { "tenant", "batch_item" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "batch_items_by_lease",
                table: "batch_items",
                column: "lease_until_ticks");

            migrationBuilder.CreateIndex(
                name: "batch_items_by_position",
                table: "batch_items",
                columns: new[] { "tenant", "batch", "position" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "batch_items_by_state",
                table: "batch_items",
                columns: new[] { "tenant", "batch", "state", "lost_count", "position" });

            migrationBuilder.CreateIndex(
                name: "batch_items_by_vehicle",
                table: "batch_items",
                columns: new[] { "tenant", "batch", "vehicle_ref" });

            migrationBuilder.CreateIndex(
                name: "batches_by_time",
                table: "batches",
                columns: new[] { "tenant", "create_time_ticks", "id" });

            migrationBuilder.CreateIndex(
                name: "batches_by_turn",
                table: "batches",
                columns: new[] { "state", "last_claim_ticks" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "batch_events");

            migrationBuilder.DropTable(
                name: "batch_items");

            migrationBuilder.DropTable(
                name: "batches");

            migrationBuilder.DropIndex(
                name: "findings_by_batch_item",
                table: "findings");

            migrationBuilder.DropColumn(
                name: "batch_item",
                table: "findings");
        }
    }
}
