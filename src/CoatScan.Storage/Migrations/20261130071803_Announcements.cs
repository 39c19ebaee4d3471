using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace CoatScan.Storage.Migrations
{
    /// <summary>Notes up to which event the announcements to other programs have come.</summary>
    internal sealed partial class Announcements : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<long>(
                name: "announced_sequence",
                table: "batches",
                type: "INTEGER",
                nullable: false,
                defaultValue: 0L);

            // What happened before there were announcements is no news.
            migrationBuilder.Sql("UPDATE batches SET announced_sequence = last_sequence;");

            migrationBuilder.CreateIndex(
                name: "batches_to_announce",
                table: "batches",
                column: "last_sequence",
                filter: "announced_sequence < last_sequence");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropIndex(
                name: "batches_to_announce",
                table: "batches");

            migrationBuilder.DropColumn(
                name: "announced_sequence",
                table: "batches");
        }
    }
}
