using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace CoatScan.Storage.Engines;

/// <summary>Questions to the database itself, past the model.</summary>
internal static class PlainSql
{
    /// <summary>The first value of the answer as text; null or empty if there is none.</summary>
    public static async Task<string?> TextAsync(FindingContext context, string sql, CancellationToken cancellationToken)
    {
        var command = context.Database.GetDbConnection().CreateCommand();
        await using (command)
        {
            command.CommandText = sql;
            command.Transaction = context.Database.CurrentTransaction?.GetDbTransaction();
            return Convert.ToString(
                await command.ExecuteScalarAsync(cancellationToken), CultureInfo.InvariantCulture);
        }
    }
}
