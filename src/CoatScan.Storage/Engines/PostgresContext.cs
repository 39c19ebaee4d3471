using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Engines;

/// <summary>The same tables in PostgreSQL; a type of its own, because migrations belong to a type of context.</summary>
internal sealed class PostgresContext(DbContextOptions<PostgresContext> options) : FindingContext(options)
{
    protected override void ConfigureConventions(ModelConfigurationBuilder configurationBuilder) =>
        // Byte order, as in SQLite: pages and order must not depend on the locale that a database was made with.
        configurationBuilder.Properties<string>().UseCollation("C");
}
