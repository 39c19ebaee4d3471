using System.Diagnostics;
using CoatScan.V1;
using Microsoft.Data.Sqlite;

namespace CoatScan.StressTests.Trials;

/// <summary>A large batch of small photos on the default storage: memory all along, and what the ledger takes on disk.</summary>
internal static class LargeBatchTrial
{
    private const double MostMbAboveIdle = 150;
    private const double MostLedgerMb = 40;

    private static readonly TimeSpan SampleInterval = TimeSpan.FromMilliseconds(500);

    public static async Task RunAsync(TrialOptions options, Figures figures)
    {
        var items = options.Whole("items", 20_000);
        using var folder = new TemporaryFolder();
        await using var service = await ServiceUnderTest.StartAsync(folder.Path);
        var idleMb = service.ResidentMb;
        var samples = new List<(string Part, double Mb)>();
        var (part, goesOn) = ("upload", true);
        var sampling = SampleAsync();

        var clock = Stopwatch.StartNew();
        var photos = await BatchFeed.UploadAsync(service, items, i => StressPhotos.Variant(StressPhotos.SmallOf(i), i));
        var uploadTime = clock.Elapsed;
        Volatile.Write(ref part, "batch");
        clock.Restart();
        await BatchFeed.StartAsync(service, "large", photos, items);
        var end = await EndAsync(service);
        var batchTime = clock.Elapsed;
        Volatile.Write(ref part, "reading");
        var rest = await BatchFeed.ItemsAsync(service, "large");
        Volatile.Write(ref goesOn, false);
        await sampling;

        // Stopped, so that what was written last is in the file.
        await service.StopAsync();
        var databaseMb = Directory.EnumerateFiles(folder.Path, "coatscan.db*").Sum(file => new FileInfo(file).Length) / 1e6;
        figures.Say("items", $"{items}, {photos.Distinct().Count()} different photos; {end.GradedCount} graded, {end.FailedCount} failed");
        figures.Say("upload", $"{uploadTime.TotalSeconds:0} s, {items / uploadTime.TotalSeconds:0} photos a second");
        figures.Say("batch", $"{batchTime.TotalSeconds:0} s, {items / batchTime.TotalSeconds:0.0} photos a second");
        figures.Say("memory, idle", $"{idleMb:0} MB");
        foreach (var group in samples.GroupBy(sample => sample.Part))
        {
            figures.Say($"memory above idle, most during {group.Key}", $"{group.Max(sample => sample.Mb) - idleMb:0} MB");
        }

        var batch = samples.Where(sample => sample.Part == "batch").Select(sample => sample.Mb).ToList();
        figures.Say("memory above idle, most in each quarter of the batch", $"{Quarters(batch, idleMb)} MB");
        figures.AtMost("memory above idle, most", samples.Max(sample => sample.Mb) - idleMb, MostMbAboveIdle, "MB");
        figures.Say("database file, an item", $"{databaseMb * 1e3 / items:0.0} kB");
        var ledgerMb = await BatchTablesMbAsync(Path.Combine(folder.Path, "coatscan.db"));
        figures.AtMost("ledger: batches, items and events", ledgerMb, MostLedgerMb, "MB");
        figures.Say("the whole database file, findings and all", $"{databaseMb:0} MB");
        figures.AtMost("missing", items - rest.Count(item => item.State == BatchItem.Types.State.Graded), 0, "items");

        async Task SampleAsync()
        {
            while (Volatile.Read(ref goesOn))
            {
                samples.Add((Volatile.Read(ref part), service.ResidentMb));
                await Task.Delay(SampleInterval);
            }
        }
    }

    private static string Quarters(List<double> samples, double idleMb) => string.Join(
        ", ",
        samples.Chunk(Math.Max(1, (samples.Count + 3) / 4)).Select(quarter => FormattableString.Invariant($"{quarter.Max() - idleMb:0}")));

    private static async Task<Batch> EndAsync(ServiceUnderTest service)
    {
        while (true)
        {
            var now = await service.Batches.GetBatchAsync(new GetBatchRequest { Name = "batches/large" });
            if (now.FinishTime is not null)
            {
                return now;
            }

            await Task.Delay(SampleInterval);
        }
    }

    /// <summary>What the database would take if it held batches, their items and their events alone. The other tables are gone afterwards.</summary>
    private static async Task<double> BatchTablesMbAsync(string path)
    {
        await using (var connection = new SqliteConnection($"Data Source={path};Pooling=False"))
        {
            await connection.OpenAsync();
            await ExecuteAsync(connection, "PRAGMA foreign_keys = OFF");
            var others = new List<string>();
            await using (var command = connection.CreateCommand())
            {
                command.CommandText = "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name NOT LIKE 'batch%'";
                await using var reader = await command.ExecuteReaderAsync();
                while (await reader.ReadAsync())
                {
                    others.Add(reader.GetString(0));
                }
            }

            foreach (var table in others)
            {
                await ExecuteAsync(connection, $"DROP TABLE {table}");
            }

            await ExecuteAsync(connection, "VACUUM");
            await ExecuteAsync(connection, "PRAGMA wal_checkpoint(TRUNCATE)");
        }

        return new FileInfo(path).Length / 1e6;
    }

    private static async Task ExecuteAsync(SqliteConnection connection, string sql)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        await command.ExecuteNonQueryAsync();
    }
}
