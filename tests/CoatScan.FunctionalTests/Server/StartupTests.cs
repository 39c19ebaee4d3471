using System.Net;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Service.Hosting;
using Microsoft.Extensions.Options;

namespace CoatScan.FunctionalTests.Server;

public sealed class StartupTests
{
    [Fact]
    public void Build_unknown_setting_is_refused_by_name()
    {
        var error = Assert.Throws<StartupException>(() => CoatScanHost.Build(new CoatScanHostSettings
        {
            Overrides = new Dictionary<string, string?> { ["CoatScan:Analysis:Wokers"] = "2" },
        }));

        Assert.Contains("CoatScan:Analysis:Wokers", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("CoatScan:Analysis:Workers", "-1", "Workers")]
    [InlineData("CoatScan:Analysis:MaxInlineBytes", "1", "MaxInlineBytes")]
    [InlineData("CoatScan:Analysis:MaxPanelBytes", "65536", "MaxPanelBytes")]
    [InlineData("CoatScan:Analysis:MaxMegapixelsInFlight", "49", "MaxMegapixelsInFlight")]
    [InlineData("CoatScan:Storage:RetentionDays", "0", "RetentionDays")]
    [InlineData("CoatScan:Storage:PhotoRetentionDays", "36501", "PhotoRetentionDays")]
    [InlineData("CoatScan:Photos:MaxUploadBytes", "65535", "MaxUploadBytes")]
    [InlineData("CoatScan:Photos:IdleTimeoutMs", "99", "IdleTimeoutMs")]
    public async Task Start_setting_out_of_range_ends_the_start_and_names_it(string key, string value, string named)
    {
        var error = await Assert.ThrowsAsync<OptionsValidationException>(() => RunningServer.StartAsync((key, value)));

        Assert.Contains(named, error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_store_that_is_no_database_ends_the_start_with_one_sentence()
    {
        var folder = Directory.CreateTempSubdirectory("coatscan-test-").FullName;
        await File.WriteAllTextAsync(
            Path.Combine(folder, "coatscan.db"),
            new string('x', 8192),
            TestContext.Current.CancellationToken);
        await using var application = CoatScanHost.Build(new CoatScanHostSettings
        {
            DataFolder = folder,
            GrpcPort = 0,
            HttpPort = 0,
            Quiet = true,
        });

        var error = await Assert.ThrowsAsync<StartupException>(
            () => application.StartAsync(TestContext.Current.CancellationToken));

        Assert.StartsWith("The store cannot be used:", error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', error.Message);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Start_photo_folder_that_takes_no_file_ends_the_start_with_one_sentence()
    {
        var file = Path.GetTempFileName();

        var error = await Assert.ThrowsAsync<StartupException>(() => RunningServer.StartAsync(("CoatScan:Storage:PhotoPath", file)));

        Assert.Equal($"The photo store cannot be used: The photo folder {file} cannot be written.", error.Message);
        File.Delete(file);
    }

    [Fact]
    public async Task Readiness_follows_the_photo_folder()
    {
        await using var server = await RunningServer.StartAsync();
        var photos = Path.Combine(server.Folder, "photos");
        Directory.Delete(photos, recursive: true);
        await File.WriteAllTextAsync(photos, "", TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.ServiceUnavailable, await ReadyAsync());
        File.Delete(photos);
        Assert.Equal(HttpStatusCode.OK, await ReadyAsync());

        async Task<HttpStatusCode> ReadyAsync()
        {
            using var response = await server.Http.GetAsync("/health/ready", TestContext.Current.CancellationToken);
            return response.StatusCode;
        }
    }

    [Fact]
    public async Task Start_model_with_another_digest_ends_the_start()
    {
        var folder = Directory.CreateTempSubdirectory("coatscan-test-").FullName;
        var models = Path.Combine(AppContext.BaseDirectory, "models");
        foreach (var file in Directory.GetFiles(models, "*", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(folder, "models", Path.GetRelativePath(models, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }

        var model = Directory.GetFiles(Path.Combine(folder, "models", "classifier"), "*.zip")[0];
        var bytes = await File.ReadAllBytesAsync(model, TestContext.Current.CancellationToken);
        bytes[bytes.Length / 2] ^= 0xFF;
        await File.WriteAllBytesAsync(model, bytes, TestContext.Current.CancellationToken);

        var error = await Assert.ThrowsAsync<StartupException>(() => RunningServer.StartAsync(
            ("CoatScan:Models:Path", Path.Combine(folder, "models"))));

        Assert.StartsWith("The classifier cannot be used:", error.Message, StringComparison.Ordinal);
        Directory.Delete(folder, recursive: true);
    }
}
