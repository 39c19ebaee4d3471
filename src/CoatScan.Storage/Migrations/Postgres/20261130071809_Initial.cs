using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CoatScan.Storage.Migrations.Postgres
{
    /// <summary>All tables.</summary>
    internal sealed partial class Initial : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "api_keys",
                columns: table => new
                {
                    id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    tenant = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    secret_hash = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    scope = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    display_name = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    create_time_ticks = table.Column<long>(type: "bigint", nullable: false),
                    expire_time_ticks = table.Column<long>(type: "bigint", nullable: true),
                    revoke_time_ticks = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_api_keys", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "audit_entries",
                columns: table => new
                {
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    time = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    action = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    resource = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    outcome = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    tenant = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    actor = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    previous_hash = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    hash = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_audit_entries", x => x.sequence);
                });

            migrationBuilder.CreateTable(
                name: "batch_events",
                columns: table => new
                {
                    tenant = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    batch = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    sequence = table.Column<long>(type: "bigint", nullable: false),
                    batch_state = table.Column<int>(type: "integer", nullable: false),
                    graded_count = table.Column<int>(type: "integer", nullable: false),
                    failed_count = table.Column<int>(type: "integer", nullable: false),
                    cancelled_count = table.Column<int>(type: "integer", nullable: false),
                    finish_time_ticks = table.Column<long>(type: "bigint", nullable: true),
                    version = table.Column<long>(type: "bigint", nullable: false),
                    item_key = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    item_state = table.Column<int>(type: "integer", nullable: true),
                    attempt = table.Column<int>(type: "integer", nullable: true),
                    finding_id = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    error = table.Column<string>(type: "text", nullable: true, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batch_events", x => new { x.tenant, x.batch, x.sequence });
                });

            migrationBuilder.CreateTable(
                name: "batch_items",
                columns: table => new
                {
                    tenant = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    batch = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    item_key = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    position = table.Column<int>(type: "integer", nullable: false),
                    vehicle_ref = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    panel = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    given = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    state = table.Column<int>(type: "integer", nullable: false),
                    attempt = table.Column<int>(type: "integer", nullable: false),
                    lost_count = table.Column<int>(type: "integer", nullable: false),
                    due_ticks = table.Column<long>(type: "bigint", nullable: false),
                    lease_until_ticks = table.Column<long>(type: "bigint", nullable: true),
                    lease_ticks = table.Column<long>(type: "bigint", nullable: false),
                    worker = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    fence = table.Column<long>(type: "bigint", nullable: false),
                    finding_id = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    error = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    summary = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    severity = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batch_items", x => new { x.tenant, x.batch, x.item_key });
                });

            migrationBuilder.CreateTable(
                name: "batches",
                columns: table => new
                {
                    tenant = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    display_name = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    state = table.Column<int>(type: "integer", nullable: false),
                    item_count = table.Column<int>(type: "integer", nullable: false),
                    graded_count = table.Column<int>(type: "integer", nullable: false),
                    failed_count = table.Column<int>(type: "integer", nullable: false),
                    cancelled_count = table.Column<int>(type: "integer", nullable: false),
                    create_time_ticks = table.Column<long>(type: "bigint", nullable: false),
                    finish_time_ticks = table.Column<long>(type: "bigint", nullable: true),
                    last_sequence = table.Column<long>(type: "bigint", nullable: false),
                    announced_sequence = table.Column<long>(type: "bigint", nullable: false),
                    version = table.Column<long>(type: "bigint", nullable: false),
                    last_claim_ticks = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batches", x => new { x.tenant, x.id });
                });

            migrationBuilder.CreateTable(
                name: "finding_photos",
                columns: table => new
                {
                    finding_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    photo_index = table.Column<int>(type: "integer", nullable: false),
                    tenant = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    sha256 = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    perceptual_hash = table.Column<long>(type: "bigint", nullable: true),
                    capture_time = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    create_time_ticks = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_finding_photos", x => new { x.finding_id, x.photo_index });
                });

            migrationBuilder.CreateTable(
                name: "findings",
                columns: table => new
                {
                    id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    tenant = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    create_time_ticks = table.Column<long>(type: "bigint", nullable: false),
                    verdict = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    panel = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    external_ref = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    top_condition = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    batch_item = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    given = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    document = table.Column<string>(type: "text", nullable: false, collation: "C")
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_findings", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "photos",
                columns: table => new
                {
                    tenant = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    sha256 = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    size_bytes = table.Column<long>(type: "bigint", nullable: false),
                    media_type = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    width_px = table.Column<int>(type: "integer", nullable: false),
                    height_px = table.Column<int>(type: "integer", nullable: false),
                    display_name = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    capture_time = table.Column<string>(type: "text", nullable: true, collation: "C"),
                    perceptual_hash = table.Column<long>(type: "bigint", nullable: true),
                    create_time_ticks = table.Column<long>(type: "bigint", nullable: false),
                    expire_time_ticks = table.Column<long>(type: "bigint", nullable: false),
                    delete_time_ticks = table.Column<long>(type: "bigint", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_photos", x => new { x.tenant, x.sha256 });
                });

            migrationBuilder.CreateTable(
                name: "request_keys",
                columns: table => new
                {
                    tenant = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    request_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    request_hash = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    finding_id = table.Column<string>(type: "text", nullable: false, collation: "C"),
                    create_time_ticks = table.Column<long>(type: "bigint", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_request_keys", x => new { x.tenant, x.request_id });
                });

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

            migrationBuilder.CreateIndex(
                name: "batches_to_announce",
                table: "batches",
                column: "last_sequence",
                filter: "announced_sequence < last_sequence");

            migrationBuilder.CreateIndex(
                name: "finding_photos_by_digest",
                table: "finding_photos",
                columns: new[] { "tenant", "sha256" });

            migrationBuilder.CreateIndex(
                name: "finding_photos_by_look",
                table: "finding_photos",
                columns: new[] { "tenant", "perceptual_hash" });

            migrationBuilder.CreateIndex(
                name: "findings_by_batch_item",
                table: "findings",
                columns: new[] { "tenant", "batch_item" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "findings_by_reference",
                table: "findings",
                columns: new[] { "tenant", "external_ref", "create_time_ticks" });

            migrationBuilder.CreateIndex(
                name: "findings_by_time",
                table: "findings",
                columns: new[] { "tenant", "create_time_ticks", "id" });

            migrationBuilder.CreateIndex(
                name: "photos_by_deletion",
                table: "photos",
                column: "delete_time_ticks");

            migrationBuilder.CreateIndex(
                name: "photos_by_expiry",
                table: "photos",
                column: "expire_time_ticks");

            migrationBuilder.CreateIndex(
                name: "photos_by_look",
                table: "photos",
                columns: new[] { "tenant", "perceptual_hash" });

            migrationBuilder.CreateIndex(
                name: "request_keys_by_finding",
                table: "request_keys",
                column: "finding_id");

            migrationBuilder.CreateIndex(
                name: "request_keys_by_time",
                table: "request_keys",
                column: "create_time_ticks");

            // Append-only by more than good will. Whoever drops the triggers still breaks the chain of hashes.
            migrationBuilder.Sql("""
                CREATE FUNCTION refuse_audit_change() RETURNS trigger LANGUAGE plpgsql AS
                $$ BEGIN RAISE EXCEPTION 'the audit log is append-only'; END $$;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER audit_entries_append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON audit_entries
                FOR EACH STATEMENT EXECUTE FUNCTION refuse_audit_change();
                """);

            // Called by queries as HashDistance.Bits.
            migrationBuilder.Sql("""
                CREATE FUNCTION hash_distance(first bigint, second bigint) RETURNS integer
                LANGUAGE sql IMMUTABLE STRICT PARALLEL SAFE AS
                $$ SELECT bit_count((first # second)::bit(64))::integer $$;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql("DROP FUNCTION hash_distance(bigint, bigint)");

            migrationBuilder.DropTable(
                name: "api_keys");

            migrationBuilder.DropTable(
                name: "audit_entries");

            migrationBuilder.DropTable(
                name: "batch_events");

            migrationBuilder.DropTable(
                name: "batch_items");

            migrationBuilder.DropTable(
                name: "batches");

            migrationBuilder.DropTable(
                name: "finding_photos");

            migrationBuilder.DropTable(
                name: "findings");

            migrationBuilder.DropTable(
                name: "photos");

            migrationBuilder.DropTable(
                name: "request_keys");

            migrationBuilder.Sql("DROP FUNCTION refuse_audit_change()");
        }
    }
}
