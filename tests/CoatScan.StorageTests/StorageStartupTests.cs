using CoatScan.Findings;
using CoatScan.Storage;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.StorageTests;

public sealed class StorageStartupTests : IDisposable
{
    private readonly TempStore _temp = new(busyTimeoutMs: 50);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task MigrateAsync_makes_folder_file_and_tables()
    {
        await _temp.OpenAsync();

        Assert.True(File.Exists(_temp.Options.Path));
        Assert.Equal(
            "api_keys,audit_entries,batch_events,batch_items,batches,finding_photos,findings,photos,request_keys",
            _temp.Sql(
                """
                SELECT group_concat(name, ',' ORDER BY name) FROM sqlite_master
                WHERE type = 'table' AND name NOT LIKE '\_\_%' ESCAPE '\'
                """));
    }

    [Fact]
    public async Task MigrateAsync_again_changes_nothing()
    {
        var store = await _temp.OpenAsync();
        await store.SaveAsync(TestFindings.Small(1), cancellationToken: Token);
        var schema = _temp.Sql("SELECT group_concat(sql) FROM sqlite_master");

        await store.MigrateAsync(Token);
        await (await _temp.OpenAsync()).MigrateAsync(Token);

        Assert.Equal(schema, _temp.Sql("SELECT group_concat(sql) FROM sqlite_master"));
        Assert.Equal(1L, _temp.Sql("SELECT count(*) FROM findings"));
    }

    [Fact]
    public async Task MigrateAsync_two_processes_at_once_both_succeed()
    {
        _temp.Options.BusyTimeoutMs = 5_000;

        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(_temp.OpenAsync, Token)));

        using var context = new FindingContextFactory().CreateDbContext([]);
        Assert.Equal((long)context.Database.GetMigrations().Count(), _temp.Sql("SELECT count(*) FROM __EFMigrationsHistory"));
    }

    [Fact]
    public async Task MigrateAsync_folder_that_is_a_file_is_unavailable()
    {
        await File.WriteAllTextAsync(Path.Combine(_temp.Folder, "data"), "a file", Token);

        await AssertUnusableAsync("its folder cannot be made");
    }

    [Fact]
    public async Task MigrateAsync_folder_that_refuses_files_is_unavailable()
    {
        // /proc takes no new file from anybody, root too.
        Assert.SkipUnless(OperatingSystem.IsLinux(), "needs a folder that nobody can write to");
        _temp.Options.Path = "/proc/findings.db";

        await AssertUnusableAsync("it cannot be opened");
    }

    [Fact]
    public async Task MigrateAsync_path_that_is_a_folder_is_unavailable()
    {
        Directory.CreateDirectory(_temp.Options.Path);

        await AssertUnusableAsync("it cannot be opened");
    }

    [Fact]
    public async Task MigrateAsync_file_that_is_no_database_is_unavailable()
    {
        Directory.CreateDirectory(Path.GetDirectoryName(_temp.Options.Path)!);
        await File.WriteAllTextAsync(_temp.Options.Path, new string('x', 10_000), Token);

        await AssertUnusableAsync("it is damaged or no database");
    }

    [Fact]
    public async Task MigrateAsync_damaged_database_is_unavailable()
    {
        await _temp.OpenAsync();
        _temp.Close();
        await using (var file = File.OpenWrite(_temp.Options.Path))
        {
            // Behind the 100 bytes of the header: the page that says which tables there are.
            file.Seek(100, SeekOrigin.Begin);
            file.Write(Enumerable.Repeat((byte)0xA5, 3_000).ToArray());
        }

        await AssertUnusableAsync("it is damaged or no database");
    }

    [Fact]
    public async Task MigrateAsync_tables_of_somebody_else_are_unavailable()
    {
        Directory.CreateDirectory(Path.GetDirectoryName(_temp.Options.Path)!);
        _temp.Sql("CREATE TABLE findings (x)");

        await AssertUnusableAsync("its tables are not those of this program");
        Assert.Equal("CREATE TABLE findings (x)", _temp.Sql("SELECT group_concat(sql) FROM sqlite_master"));
    }

    [Fact]
    public async Task MigrateAsync_store_of_a_newer_program_is_unavailable()
    {
        await _temp.OpenAsync();
        _temp.Close();
        _temp.Sql("INSERT INTO __EFMigrationsHistory VALUES ('29990101000000_Later', '99')");

        await AssertUnusableAsync("it was written by a newer version of this program");
    }

    [Fact]
    public async Task MigrateAsync_store_that_another_process_holds_is_unavailable()
    {
        await _temp.OpenAsync();
        _temp.Close();
        using var other = _temp.OpenConnection();
        using var transaction = other.BeginTransaction();

        await AssertUnusableAsync("another process holds it");
    }

    [Fact]
    public async Task Model_is_what_the_migrations_make()
    {
        await using var context = new FindingContextFactory().CreateDbContext([]);

        Assert.False(Microsoft.EntityFrameworkCore.RelationalDatabaseFacadeExtensions.HasPendingModelChanges(context.Database));
    }

    private async Task AssertUnusableAsync(string why)
    {
        var error = await Assert.ThrowsAsync<CoatScanException>(_temp.OpenAsync);
        Assert.Equal(ErrorReason.StorageUnavailable, error.Reason);
        Assert.Equal($"The store {_temp.Options.Path} cannot be used: {why}.", error.Message);
        Assert.Equal(why, error.Metadata["why"]);
    }
}
