using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CoatScan.Storage.Migrations
{
    /// <summary>Finds the findings of one claim or vehicle.</summary>
    internal sealed partial class FindingsByReference : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateIndex(
                name: "findings_by_reference",
                table: "findings",
                columns: new[] { "tenant", "external_ref", "create_time_ticks" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "findings_by_reference",
                table: "findings");
        }
    }
}
