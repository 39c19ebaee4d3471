using Microsoft.EntityFrameworkCore.Storage;

namespace CoatScan.Storage.Engines;

/// <summary>What differs between the databases that everything is kept in.</summary>
internal interface IDatabaseEngine : IDisposable
{
    /// <summary>Where the database is, for a sentence to people; without a password.</summary>
    string Place { get; }

    /// <summary>The clock of the database's own server; null where the database has none but ours.</summary>
    TimeProvider? ServerClock { get; }

    /// <summary>Where the processes that use the database show that they live; null where they may run on several machines.</summary>
    string? WorkerFolder { get; }

    /// <summary>A context on the database.</summary>
    FindingContext CreateContext();

    /// <summary>Begins to write: until the transaction ends nobody else does, no other process either. Readers go on.</summary>
    Task<IDbContextTransaction> BeginWriteAsync(FindingContext context, CancellationToken cancellationToken);

    /// <summary>Makes what has to be there before the tables, and checks that a commit reaches the disk.</summary>
    /// <exception cref="NotSupportedException">It does not; the message says why, as the end of a sentence.</exception>
    Task PrepareAsync(FindingContext context, CancellationToken cancellationToken);

    /// <summary>The SQL that gives one text when the table of applied migrations is there, and nothing when not.</summary>
    string FindHistorySql { get; }

    /// <summary>The SQL that gives the applied migrations in order, separated by spaces.</summary>
    string ListHistorySql { get; }

    /// <summary>Photos marked up to a time that no waiting or running item names.</summary>
    FormattableString RemovablePhotosSql(long markedUntilTicks);

    /// <summary>Whether disk, server, connection or lock is at fault, and not the code that asked.</summary>
    bool IsFailure(Exception error);

    /// <summary>Whether a text holds a character that the database does not take.</summary>
    bool IsTextRefused(Exception error);

    /// <summary>Why the database cannot be used, as the end of a sentence; null if the error is not the database's.</summary>
    string? WhyUnusable(Exception error);
}
