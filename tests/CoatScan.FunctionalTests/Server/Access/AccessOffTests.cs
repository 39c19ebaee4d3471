using System.Net;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Service.Hosting;
using Microsoft.Extensions.Options;

namespace CoatScan.FunctionalTests.Server.Access;

/// <summary>With access off the service is for its own machine, and says so.</summary>
public sealed class AccessOffTests(SharedServer shared)
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("0.0.0.0")]
    [InlineData("::")]
    [InlineData("192.0.2.7")]
    public void Build_access_off_refuses_to_listen_to_other_machines(string host)
    {
        var error = Assert.Throws<StartupException>(() => CoatScanHost.Build(new() { Host = host, Quiet = true }));

        Assert.StartsWith($"Access is off, and {host} lets other machines in.", error.Message, StringComparison.Ordinal);
        Assert.Contains("--api-keys", error.Message, StringComparison.Ordinal);
        Assert.Contains("--no-access-control", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0.0.0.0", "CoatScan:Access:OffOnNetwork")]
    [InlineData("0.0.0.0", "CoatScan:Access:ApiKeys")]
    [InlineData("127.0.0.2", "CoatScan:Analysis:Workers")]
    public async Task Build_listens_where_it_was_told_to_or_where_callers_are_asked(string host, string setting)
    {
        await using var application = CoatScanHost.Build(new()
        {
            Host = host,
            Quiet = true,
            Overrides = new Dictionary<string, string?> { [setting] = setting.EndsWith("Workers", StringComparison.Ordinal) ? "1" : "true" },
        });

        Assert.NotNull(application);
    }

    [Theory]
    [InlineData("service.example", null)]
    [InlineData("192.0.2.7:8080", null)]
    [InlineData(null, "http://site.example")]
    [InlineData(null, "null")]
    public async Task Call_of_a_foreign_page_is_refused(string? host, string? origin)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/serverInfo");
        request.Headers.Host = host;
        if (origin is not null)
        {
            request.Headers.TryAddWithoutValidation("Origin", origin);
        }

        using var response = await shared.Server.Http.SendAsync(request, Token);

        Assert.Equal(HttpStatusCode.Unauthorized, response.StatusCode);
        Assert.Contains("only this machine is served", await response.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("GET", "navigate", "document", HttpStatusCode.OK)]
    [InlineData("POST", "navigate", "document", HttpStatusCode.Unauthorized)]
    [InlineData("GET", "navigate", "iframe", HttpStatusCode.Unauthorized)]
    [InlineData("GET", "no-cors", "image", HttpStatusCode.Unauthorized)]
    [InlineData("GET", "cors", "empty", HttpStatusCode.Unauthorized)]
    public async Task Link_from_another_site_may_be_followed_and_nothing_else(
        string method, string mode, string destination, HttpStatusCode expected)
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), method == "GET" ? "/v1/serverInfo" : "/v1/batches");
        if (method == "POST")
        {
            request.Content = new StringContent("{}", null, "application/json");
        }

        request.Headers.TryAddWithoutValidation("Sec-Fetch-Site", "cross-site");
        request.Headers.TryAddWithoutValidation("Sec-Fetch-Mode", mode);
        request.Headers.TryAddWithoutValidation("Sec-Fetch-Dest", destination);

        using var response = await shared.Server.Http.SendAsync(request, Token);

        Assert.Equal(expected, response.StatusCode);
    }

    [Theory]
    [InlineData("localhost")]
    [InlineData("127.0.0.1")]
    [InlineData("[::1]")]
    [InlineData("coatscan.localhost")]
    public async Task Call_of_the_services_own_page_is_served(string name)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/serverInfo");
        request.Headers.Host = $"{name}:{shared.Server.Http.BaseAddress!.Port}";
        request.Headers.TryAddWithoutValidation("Origin", $"http://{request.Headers.Host}");

        using var response = await shared.Server.Http.SendAsync(request, Token);

        Assert.Equal(HttpStatusCode.OK, response.StatusCode);
    }

    [Fact]
    public async Task Start_says_whether_access_is_on()
    {
        var folder = Directory.CreateTempSubdirectory("coatscan-test-").FullName;
        await using (var off = await ServiceProcess.StartAsync(folder))
        {
            Assert.Contains("Access is off: whoever works on this machine may do everything.", await off.LogAsync("Access is"), StringComparison.Ordinal);
        }

        await using (var on = await ServiceProcess.StartWithAsync(folder, "--api-keys"))
        {
            Assert.Contains("Access is on: API keys", await on.LogAsync("Access is"), StringComparison.Ordinal);
        }

        Directory.Delete(folder, recursive: true);
    }

    [Theory]
    [InlineData("CoatScan:Access:JwtAuthority", "http://provider.example", "JwtAuthority must be an https address")]
    [InlineData("CoatScan:Access:JwtAuthority", "https://provider.example", "JwtAudience must be set")]
    [InlineData("CoatScan:Access:ClientCertificates:0:Sha256", "ab", "Sha256 must be 64 hex digits")]
    [InlineData("CoatScan:Access:ClientCertificates:0:Sha256", "ab", "ClientCertificates needs TLS")]
    [InlineData("CoatScan:Access:ClientCertificates:0:Tenant", "a/b", "ClientCertificates:0:Tenant must be")]
    [InlineData("CoatScan:Access:ClientCertificates:0:Subject", "scanner", "Subject needs ClientAuthorityPath")]
    [InlineData("CoatScan:Quotas:CallsPerMinute", "0", "CallsPerMinute is 0; it must be 1 to 1000000")]
    [InlineData("CoatScan:Quotas:MaxPhotos", "-1", "MaxPhotos is -1; it must be 0 or more")]
    [InlineData("CoatScan:Quotas:Tenants:north:MaxPhotoBytes", "-1", "Tenants:north:MaxPhotoBytes is -1; it must be 0 or more")]
    [InlineData("CoatScan:Quotas:Tenants:a.b:MaxPhotos", "1", "'a.b' is no id of a tenant")]
    public async Task Start_setting_that_cannot_be_meant_ends_the_start_and_names_it(string key, string value, string named)
    {
        var error = await Assert.ThrowsAsync<OptionsValidationException>(() => RunningServer.StartAsync((key, value)));

        Assert.Contains(named, error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("CoatScan:Quotas:Tenants:north:CalsPerMinute", "1", "CalsPerMinute")]
    [InlineData("CoatScan:Access:ClientCertificates:0:Sha265", "ab", "Sha265")]
    [InlineData("CoatScan:Access:ApiKey", "true", "CoatScan:Access:ApiKey")]
    [InlineData("CoatScan:Access:ApiKeys", "maybe", "ApiKeys")]
    [InlineData("CoatScan:Tls:CertificatePath", "/no/such/file.pem", "/no/such/file.pem")]
    public void Build_setting_that_nobody_reads_or_that_is_of_another_kind_is_refused(string key, string value, string named)
    {
        var error = Assert.Throws<StartupException>(() => CoatScanHost.Build(new()
        {
            Quiet = true,
            Overrides = new Dictionary<string, string?> { [key] = value },
        }));

        Assert.Contains(named, error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', error.Message);
    }
}
