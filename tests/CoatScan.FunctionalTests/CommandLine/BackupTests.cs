using CoatScan.FunctionalTests.Infrastructure;
using Microsoft.Data.Sqlite;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary><c>backup</c> of a running service and <c>restore</c> into another one.</summary>
public sealed class BackupTests : IDisposable
{
    private readonly TempFolder _temp = new();

    public void Dispose() => _temp.Dispose();

    [Fact]
    public async Task Backup_of_a_running_service_restores_findings_and_photos()
    {
        var copy = Path.Combine(_temp.Path, "copy");
        var data = Path.Combine(_temp.Path, "data");
        await using var server = await RunningServer.StartAsync();
        var photo = await server.Photos.SendAsync(Uploads.Of(Panels.Sound));
        var finding = await server.Findings.AnalyzePhotoAsync(new() { Photo = new() { Photo = photo.Name } });

        var backup = await CommandLineRun.Of("backup", "--data", server.Folder, "--out", copy);
        var restore = await CommandLineRun.Of("restore", copy, "--data", data);
        var again = await CommandLineRun.Of("restore", copy, "--data", data);

        Assert.Equal((0, ""), (backup.Code, backup.Error));
        Assert.StartsWith($"Copied to {copy}: findings 1, photos 1 (", backup.Out, StringComparison.Ordinal);
        Assert.Equal((0, ""), (restore.Code, restore.Error));
        Assert.Equal(1, again.Code);
        Assert.Contains("There is a store", again.Error, StringComparison.Ordinal);
        await using var service = await ServiceProcess.StartAsync(data);
        Assert.Equal(finding, await service.Findings.GetFindingAsync(new() { Name = finding.Name }));
        Assert.Equal(photo, await service.Photos.GetPhotoAsync(new() { Name = photo.Name }));
        var fromCopy = await service.Findings.AnalyzePhotoAsync(new() { Photo = new() { Photo = photo.Name } });
        Assert.Equal(photo.Sha256, fromCopy.Photos[0].Sha256);
    }

    [Fact]
    public async Task Backup_and_restore_stand_in_the_audit_log_and_its_chain_holds()
    {
        var copy = Path.Combine(_temp.Path, "copy");
        var data = Path.Combine(_temp.Path, "data");
        await using var server = await RunningServer.StartAsync();
        await server.Findings.RankCausesAsync(new() { Facts = new() { Evidence = { "form.domes" } } });

        await CommandLineRun.Of("backup", "--data", server.Folder, "--out", copy);
        await CommandLineRun.Of("restore", copy, "--data", data);

        Assert.Equal(["backup begun", "backup done"], Entries(server.DatabasePath));
        Assert.Equal(["backup begun", "restore done"], Entries(Path.Combine(data, "coatscan.db")));
        Assert.Equal(0, (await CommandLineRun.Of("audit", "verify", "--data", server.Folder)).Code);
        Assert.Equal(0, (await CommandLineRun.Of("audit", "verify", "--data", data)).Code);
    }

    [Fact]
    public async Task Backup_of_photos_in_a_folder_of_their_own_needs_that_folder()
    {
        var photos = Path.Combine(_temp.Path, "photos");
        await using var server = await RunningServer.StartAsync(("CoatScan:Storage:PhotoPath", photos));
        var photo = await server.Photos.SendAsync(Uploads.Of(Panels.Sound));

        var without = await CommandLineRun.Of("backup", "--data", server.Folder, "--out", Path.Combine(_temp.Path, "a"));
        var with = await CommandLineRun.Of(
            "backup", "--data", server.Folder, "--photos", photos, "--out", Path.Combine(_temp.Path, "b"));

        Assert.Equal((1, $"Missing or damaged: {photo.Name}\n"), (without.Code, without.Error));
        Assert.Equal((0, ""), (with.Code, with.Error));
    }

    // Of the whole store, by its operator.
    private static List<string> Entries(string database)
    {
        using var connection = new SqliteConnection($"Data Source={database};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = "SELECT action || ' ' || outcome FROM audit_entries WHERE resource = 'store' AND actor = 'operator' ORDER BY sequence";
        using var reader = command.ExecuteReader();
        var entries = new List<string>();
        while (reader.Read())
        {
            entries.Add(reader.GetString(0));
        }

        return entries;
    }

    [Fact]
    public async Task Backup_without_a_store_is_one_sentence()
    {
        var run = await CommandLineRun.Of("backup", "--data", _temp.Path, "--out", Path.Combine(_temp.Path, "copy"));

        Assert.Equal(1, run.Code);
        Assert.Equal($"There is no store {Path.Combine(_temp.Path, "coatscan.db")}.\n", run.Error);
    }
}
