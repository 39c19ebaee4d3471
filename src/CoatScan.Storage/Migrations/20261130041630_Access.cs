using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CoatScan.Storage.Migrations
{
    /// <summary>API keys, whose the entries of the audit log are, and what findings were made from.</summary>
    internal sealed partial class Access : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<string>(
                name: "given",
                table: "findings",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "actor",
                table: "audit_entries",
                type: "TEXT",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "tenant",
                table: "audit_entries",
                type: "TEXT",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "api_keys",
                columns: table => new
                {
                    id = table.Column<string>(type: "TEXT", nullable: false),
                    tenant = table.Column<string>(type: "TEXT", nullable: false),
                    secret_hash = table.Column<string>(type: "TEXT", nullable: false),
                    scope = table.Column<string>(type: "TEXT", nullable: false),
                    display_name = table.Column<string>(type: "TEXT", nullable: false),
                    create_time_ticks = table.Column<long>(type: "INTEGER", nullable: false),
                    expire_time_ticks = table.Column<long>(type: "INTEGER", nullable: true),
                    revoke_time_ticks = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_api_keys", x => x.id);
                });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "api_keys");

            migrationBuilder.DropColumn(
                name: "given",
                table: "findings");

            migrationBuilder.DropColumn(
                name: "actor",
                table: "audit_entries");

            migrationBuilder.DropColumn(
                name: "tenant",
                table: "audit_entries");
        }
    }
}
