using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CoatScan.Storage.Migrations.Postgres
{
    /// <summary>Drops the length of an item's lease, which nothing read.</summary>
    internal sealed partial class ItemsWithoutLeaseLength : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropColumn(
                name: "lease_ticks",
                table: "batch_items");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "lease_ticks",
                table: "batch_items",
                type: "bigint",
                nullable: false,
                defaultValue: 0L);
        }
    }
}
