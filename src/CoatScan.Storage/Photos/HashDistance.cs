using System.Numerics;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage.Photos;

/// <summary>Bits in which two picture hashes differ, here and inside a query.</summary>
/// <remarks>PostgreSQL gets the function by a migration.</remarks>
internal static class HashDistance
{
    private const string SqlName = "hash_distance";

    /// <summary>Bits in which two hashes differ, [0, 64].</summary>
    public static int Bits(long first, long second) => BitOperations.PopCount((ulong)(first ^ second));

    /// <summary>Lets queries call <see cref="Bits"/>.</summary>
    public static void MapTo(ModelBuilder modelBuilder) => modelBuilder
        .HasDbFunction(typeof(HashDistance).GetMethod(nameof(Bits), [typeof(long), typeof(long)])!)
        .HasName(SqlName);

    /// <summary>Gives a connection the function: SQLite counts no bits, and fetching every hash to count here takes longer.</summary>
    public static void AddTo(SqliteConnection connection) =>
        connection.CreateFunction<long, long, int>(SqlName, Bits, isDeterministic: true);
}
