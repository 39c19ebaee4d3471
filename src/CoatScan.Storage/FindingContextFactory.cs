using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;

namespace CoatScan.Storage;

/// <summary>Lets the EF tool build the context when a migration is written; never used by a running program.</summary>
internal sealed class FindingContextFactory : IDesignTimeDbContextFactory<FindingContext>
{
    public FindingContext CreateDbContext(string[] args) =>
        new(new DbContextOptionsBuilder<FindingContext>().UseSqlite("Data Source=:memory:").Options);
}
