using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CoatScan.Storage.Migrations
{
    /// <summary>Findings, the requests they answer, and an audit log that the database itself keeps from changing.</summary>
    internal sealed partial class Initial : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "audit_entries",
                columns: table => new
                {
                    sequence = table.Column<long>(type: "INTEGER", nullable: false),
                    time = table.Column<string>(type: "TEXT", nullable: false),
                    action = table.Column<string>(type: "TEXT", nullable: false),
                    resource = table.Column<string>(type: "TEXT", nullable: false),
                    outcome = table.Column<string>(type: "TEXT", nullable: false),
                    previous_hash = table.Column<string>(type: "TEXT", nullable: false),
                    hash = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_audit_entries", x => x.sequence);
                });

            migrationBuilder.CreateTable(
                name: "findings",
                columns: table => new
                {
                    id = table.Column<string>(type: "TEXT", nullable: false),
                    create_time_ticks = table.Column<long>(type: "INTEGER", nullable: false),
                    verdict = table.Column<string>(type: "TEXT", nullable: false),
                    panel = table.Column<string>(type: "TEXT", nullable: false),
                    external_ref = table.Column<string>(type: "TEXT", nullable: false),
                    top_condition = table.Column<string>(type: "TEXT", nullable: true),
                    document = table.Column<string>(type: "TEXT", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_findings", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "request_keys",
                columns: table => new
                {
                    request_id = table.Column<string>(type: "TEXT", nullable: false),
                    request_hash = table.Column<string>(type: "TEXT", nullable: false),
                    finding_id = table.Column<string>(type: "TEXT", nullable: false),
                    create_time_ticks = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_request_keys", x => x.request_id);
                });

            migrationBuilder.CreateIndex(
                name: "findings_by_time",
                table: "findings",
                columns: new[] { "create_time_ticks", "id" });

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
                CREATE TRIGGER audit_entries_no_update BEFORE UPDATE ON audit_entries
                BEGIN SELECT RAISE(ABORT, 'the audit log is append-only'); END;
                """);
            migrationBuilder.Sql("""
                CREATE TRIGGER audit_entries_no_delete BEFORE DELETE ON audit_entries
                BEGIN SELECT RAISE(ABORT, 'the audit log is append-only'); END;
                """);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "audit_entries");

            migrationBuilder.DropTable(
                name: "findings");

            migrationBuilder.DropTable(
                name: "request_keys");
        }
    }
}
