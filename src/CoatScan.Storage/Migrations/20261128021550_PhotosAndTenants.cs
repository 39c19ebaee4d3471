using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CoatScan.Storage.Migrations
{
    /// <summary>Photos, what recognizes a picture that comes again, and the tenant of every row.</summary>
    internal sealed partial class PhotosAndTenants : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropPrimaryKey(
                name: "PK_request_keys",
                table: "request_keys");

            migrationBuilder.DropIndex(
                name: "findings_by_time",
                table: "findings");

            // What was stored before there were tenants belongs to the one that a service without credentials has.
            migrationBuilder.AddColumn<string>(
                name: "tenant",
                table: "request_keys",
                type: "TEXT",
                nullable: false,
                defaultValue: "local");

            migrationBuilder.AddColumn<string>(
                name: "tenant",
                table: "findings",
                type: "TEXT",
                nullable: false,
                defaultValue: "local");

            migrationBuilder.AddPrimaryKey(
                name: "PK_request_keys",
                table: "request_keys",
                columns: new[] { "tenant", "request_id" });

            migrationBuilder.CreateTable(
                name: "finding_photos",
                columns: table => new
                {
                    finding_id = table.Column<string>(type: "TEXT", nullable: false),
                    photo_index = table.Column<int>(type: "INTEGER", nullable: false),
                    tenant = table.Column<string>(type: "TEXT", nullable: false),
                    sha256 = table.Column<string>(type: "TEXT", nullable: false),
                    perceptual_hash = table.Column<long>(type: "INTEGER", nullable: true),
                    capture_time = table.Column<string>(type: "TEXT", nullable: true),
                    create_time_ticks = table.Column<long>(type: "INTEGER", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_finding_photos", x => new { x.finding_id, x.photo_index });
                });

            migrationBuilder.CreateTable(
                name: "photos",
                columns: table => new
                {
                    tenant = table.Column<string>(type: "TEXT", nullable: false),
                    sha256 = table.Column<string>(type: "TEXT", nullable: false),
                    size_bytes = table.Column<long>(type: "INTEGER", nullable: false),
                    media_type = table.Column<string>(type: "TEXT", nullable: false),
                    width_px = table.Column<int>(type: "INTEGER", nullable: false),
                    height_px = table.Column<int>(type: "INTEGER", nullable: false),
                    display_name = table.Column<string>(type: "TEXT", nullable: false),
                    capture_time = table.Column<string>(type: "TEXT", nullable: true),
                    perceptual_hash = table.Column<long>(type: "INTEGER", nullable: true),
                    create_time_ticks = table.Column<long>(type: "INTEGER", nullable: false),
                    expire_time_ticks = table.Column<long>(type: "INTEGER", nullable: false),
                    delete_time_ticks = table.Column<long>(type: "INTEGER", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_photos", x => new { x.tenant, x.sha256 });
                });

            migrationBuilder.CreateIndex(
                name: "findings_by_time",
                table: "findings",
                columns: new[] { "tenant", "create_time_ticks", "id" });

            migrationBuilder.CreateIndex(
                name: "finding_photos_by_digest",
                table: "finding_photos",
                columns: new[] { "tenant", "sha256" });

            migrationBuilder.CreateIndex(
                name: "finding_photos_by_look",
                table: "finding_photos",
                columns: new[] { "tenant", "perceptual_hash" });

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
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "finding_photos");

            migrationBuilder.DropTable(
                name: "photos");

            migrationBuilder.DropPrimaryKey(
                name: "PK_request_keys",
                table: "request_keys");

            migrationBuilder.DropIndex(
                name: "findings_by_time",
                table: "findings");

            migrationBuilder.DropColumn(
                name: "tenant",
                table: "request_keys");

            migrationBuilder.DropColumn(
                name: "tenant",
                table: "findings");

            migrationBuilder.AddPrimaryKey(
                name: "PK_request_keys",
                table: "request_keys",
                column: "request_id");

            migrationBuilder.CreateIndex(
                name: "findings_by_time",
                table: "findings",
                columns: new[] { "create_time_ticks", "id" });
        }
    }
}
