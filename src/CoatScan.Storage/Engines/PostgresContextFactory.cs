using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace CoatScan.Storage.Engines;

/// <summary>Lets the EF tool build the context when a migration is written; never used by a running program.</summary>
internal sealed class PostgresContextFactory : IDesignTimeDbContextFactory<PostgresContext>
{
    public PostgresContext CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<PostgresContext>().UseNpgsql("Host=localhost").Options);
}
