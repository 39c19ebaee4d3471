using System.Net;
using System.Text;
using CoatScan.Findings;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Storage.Keys;
using Google.Rpc;
using Grpc.Core;
using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;

namespace CoatScan.FunctionalTests.Server.Access;

public sealed class ApiKeyTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Key_holds_until_it_is_revoked_and_not_a_call_longer()
    {
        await using var server = await KeyedServer.StartAsync();
        var key = await server.MakeKeyAsync("north", AccessScope.Read);
        using var caller = server.As(key.Text);
        await caller.Findings.ListFindingsAsync(new());

        await server.Application.Services.GetRequiredService<ApiKeyStore>().RevokeAsync(key.Key.Id, Token);

        var status = await Errors.OfAsync(() => caller.Findings.ListFindingsAsync(new()));
        Assert.Equal((int)Code.Unauthenticated, status.Code);
        Assert.Equal("The API key does not hold: it is unknown, has ended or was revoked.", status.Message);
    }

    [Fact]
    public async Task Key_that_is_revoked_ends_a_watch_that_goes_on()
    {
        await using var server = await KeyedServer.StartAsync();
        var key = await server.MakeKeyAsync("north", AccessScope.Write);
        using var caller = server.As(key.Text);

        // Nobody starts it, so it can be watched for ever.
        var batch = await caller.Batches.CreateBatchAsync(new() { BatchId = "watched" });
        using var watch = caller.Batches.WatchBatch(new() { Name = batch.Name }, cancellationToken: Token);
        var watching = watch.ResponseStream.MoveNext(Token);

        // Nothing says that a watch without events has begun; one whose key ended before would be refused in other words.
        await Task.Delay(TimeSpan.FromSeconds(2), Token);
        await server.Application.Services.GetRequiredService<ApiKeyStore>().RevokeAsync(key.Key.Id, Token);

        var error = await Assert.ThrowsAsync<RpcException>(async () =>
        {
            while (await watching)
            {
                watching = watch.ResponseStream.MoveNext(Token);
            }
        });

        Assert.Equal("UNAUTHENTICATED", error.GetRpcStatus()!.Info().Reason);
        Assert.Contains("not hold any more", error.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Key_that_holds_leaves_a_watch_alone()
    {
        await using var server = await KeyedServer.StartAsync();
        using var caller = await server.AsAsync("north", AccessScope.Write);
        var batch = await caller.Batches.CreateBatchAsync(new() { BatchId = "watched" });

        // Longer than it takes until the key is looked at again.
        using var watch = caller.Batches.WatchBatch(
            new() { Name = batch.Name }, deadline: TimeProvider.System.GetUtcNow().AddSeconds(8).UtcDateTime, cancellationToken: Token);
        var error = await Assert.ThrowsAsync<RpcException>(async () =>
        {
            while (await watch.ResponseStream.MoveNext(Token))
            {
            }
        });

        Assert.Equal(StatusCode.DeadlineExceeded, error.StatusCode);
    }

    [Fact]
    public async Task Key_of_a_service_that_takes_none_opens_nothing()
    {
        await using var provider = await OpenIdProvider.StartAsync();
        await using var server = await RunningServer.StartAsync(
            ("CoatScan:Access:JwtAuthority", provider.Issuer), ("CoatScan:Access:JwtAudience", OpenIdProvider.Audience));
        using var caller = await server.AsAsync("north", AccessScope.Admin);

        Assert.Equal("UNAUTHENTICATED", (await Errors.OfAsync(() => caller.Findings.ListFindingsAsync(new()))).Info().Reason);
    }

    [Theory]
    [InlineData("Basic")]
    [InlineData("Key")]
    [InlineData("")]
    public async Task Key_in_another_form_of_the_header_opens_nothing(string scheme)
    {
        await using var server = await KeyedServer.StartAsync();
        var key = await server.MakeKeyAsync("north", AccessScope.Read);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/findings");
        request.Headers.TryAddWithoutValidation("Authorization", $"{scheme} {key.Text}".Trim());

        using var response = await server.Http.SendAsync(request, Token);

        Assert.Equal(HttpStatusCode.Unauthorized, response.StatusCode);
    }

    [Theory]
    [InlineData(null, null, HttpStatusCode.OK)]
    [InlineData("Sec-Fetch-Site", "none", HttpStatusCode.OK)]
    [InlineData("Sec-Fetch-Site", "same-origin", HttpStatusCode.OK)]
    [InlineData("Sec-Fetch-Site", "same-site", HttpStatusCode.Unauthorized)]
    [InlineData("Sec-Fetch-Site", "cross-site", HttpStatusCode.Unauthorized)]
    [InlineData("Origin", "http://site.example", HttpStatusCode.Unauthorized)]
    [InlineData("Origin", "null", HttpStatusCode.Unauthorized)]
    public async Task Browser_sends_the_key_as_a_password_from_the_services_own_pages_only(
        string? header, string? value, HttpStatusCode expected)
    {
        await using var server = await KeyedServer.StartAsync();
        var key = await server.MakeKeyAsync("north", AccessScope.Read);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/findings");
        request.Headers.Authorization = new("Basic", Convert.ToBase64String(Encoding.UTF8.GetBytes($"somebody:{key.Text}")));
        if (header is not null)
        {
            request.Headers.TryAddWithoutValidation(header, value);
        }

        using var response = await server.Http.SendAsync(request, Token);

        Assert.Equal(expected, response.StatusCode);
    }

    [Theory]
    [InlineData("somebody:password")]
    [InlineData("somebody")]
    [InlineData("")]
    public async Task Browser_without_a_key_is_asked_for_one(string pair)
    {
        await using var server = await KeyedServer.StartAsync();
        using var request = new HttpRequestMessage(HttpMethod.Get, "/v1/findings");
        request.Headers.Accept.ParseAdd("text/html,*/*;q=0.8");
        request.Headers.Authorization = new("Basic", Convert.ToBase64String(Encoding.UTF8.GetBytes(pair)));

        using var response = await server.Http.SendAsync(request, Token);

        Assert.Equal(HttpStatusCode.Unauthorized, response.StatusCode);
        Assert.Equal("Basic", Assert.Single(response.Headers.WwwAuthenticate).Scheme);
    }

    [Fact]
    public async Task Tenant_in_a_header_or_query_changes_nothing()
    {
        await using var server = await KeyedServer.StartAsync();
        using var north = await server.AsAsync("north", AccessScope.Write);
        using var south = await server.AsAsync("south", AccessScope.Read);
        await north.Findings.RankCausesAsync(new() { Facts = new() { Evidence = { "form.domes" } } });
        foreach (var name in new[] { "tenant", "x-tenant", "x-tenant-id", "coatscan:tenant" })
        {
            south.Http.DefaultRequestHeaders.TryAddWithoutValidation(name.Replace(':', '-'), "north");
        }

        var list = await south.Http.GetStringAsync("/v1/findings", Token);
        using var unknown = await south.Http.GetAsync("/v1/findings?tenant=north", Token);

        Assert.DoesNotContain("findings/", list, StringComparison.Ordinal);
        Assert.DoesNotContain("findings/", await unknown.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Refusal_for_scope_is_in_the_audit_log_with_tenant_and_key()
    {
        await using var server = await KeyedServer.StartAsync();
        var key = await server.MakeKeyAsync("north", AccessScope.Read);
        using var caller = server.As(key.Text);

        await Errors.OfAsync(() => caller.Photos.DeletePhotoAsync(new() { Name = $"photos/{new string('a', 64)}" }));

        await using var connection = new SqliteConnection($"Data Source={server.DatabasePath};Pooling=false");
        await connection.OpenAsync(Token);
        await using var command = connection.CreateCommand();
        command.CommandText = "SELECT tenant || ' ' || actor || ' ' || action || ' ' || resource || ' ' || outcome "
            + "FROM audit_entries ORDER BY sequence DESC LIMIT 1";
        Assert.Equal(
            $"north keys/{key.Key.Id} call /coatscan.v1.PhotoService/DeletePhoto forbidden", await command.ExecuteScalarAsync(Token));
    }

    [Fact]
    public async Task Store_that_does_not_answer_is_no_fault_of_the_key()
    {
        await using var server = await KeyedServer.StartAsync();
        using var caller = await server.AsAsync("north", AccessScope.Read);
        File.Delete(server.DatabasePath + "-wal");
        File.Delete(server.DatabasePath + "-shm");
        File.Delete(server.DatabasePath);
        await File.WriteAllTextAsync(server.DatabasePath, new string('x', 8192), Token);

        // Connections that still hold the old file would go on as if nothing had happened.
        SqliteConnection.ClearAllPools();

        var status = await Errors.OfAsync(() => caller.Findings.ListFindingsAsync(new()));

        Assert.Equal((int)Code.Unavailable, status.Code);
        Assert.Equal("STORAGE_UNAVAILABLE", status.Info().Reason);
    }

    [Fact]
    public async Task Quota_of_calls_is_the_tenants_own_and_says_when_to_come_back()
    {
        await using var server = await KeyedServer.StartAsync(
            ("CoatScan:Quotas:CallsPerMinute", "3"), ("CoatScan:Quotas:Tenants:south:CallsPerMinute", "60"));
        using var first = await server.AsAsync("north", AccessScope.Read);
        using var second = await server.AsAsync("north", AccessScope.Read);
        using var south = await server.AsAsync("south", AccessScope.Read);
        await first.Knowledge.GetServerInfoAsync(new());
        await second.Knowledge.GetServerInfoAsync(new());
        await first.Knowledge.GetServerInfoAsync(new());

        var error = await Assert.ThrowsAsync<RpcException>(async () => await second.Knowledge.GetServerInfoAsync(new()));
        using var json = await first.Http.GetAsync("/v1/serverInfo", Token);
        for (var i = 0; i < 10; i++)
        {
            await south.Knowledge.GetServerInfoAsync(new());
        }

        var status = error.GetRpcStatus()!;
        Assert.Equal(StatusCode.ResourceExhausted, error.StatusCode);
        Assert.Equal("QUOTA_EXCEEDED", status.Info().Reason);
        Assert.Equal(("calls_per_minute", "3"), (status.Info().Metadata["quota"], status.Info().Metadata["limit"]));
        Assert.Equal("calls_per_minute", Assert.Single(status.GetDetail<QuotaFailure>()!.Violations).Subject);
        Assert.InRange(status.GetDetail<RetryInfo>()!.RetryDelay.ToTimeSpan(), TimeSpan.FromMilliseconds(1), TimeSpan.FromSeconds(20));
        Assert.InRange(int.Parse(error.Trailers.GetValue("grpc-retry-pushback-ms")!, null), 1, 20_000);
        Assert.Equal(HttpStatusCode.TooManyRequests, json.StatusCode);
        Assert.InRange(json.Headers.RetryAfter!.Delta!.Value, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(20));
        Assert.Contains("\"QUOTA_EXCEEDED\"", await json.Content.ReadAsStringAsync(Token), StringComparison.Ordinal);
        using var health = await server.Http.GetAsync("/health/ready", Token);
        Assert.Equal(HttpStatusCode.OK, health.StatusCode);
    }

    [Fact]
    public async Task Quota_of_calls_counts_each_photo_of_a_stream()
    {
        await using var server = await KeyedServer.StartAsync(("CoatScan:Quotas:CallsPerMinute", "3"));
        using var caller = await server.AsAsync("north", AccessScope.Write);
        using var call = caller.Findings.AnalyzePhotos(cancellationToken: Token);
        for (var i = 0; i < 4; i++)
        {
            await call.RequestStream.WriteAsync(new() { Key = $"{i}", Photo = Panels.Input([1]) }, Token);
        }

        await call.RequestStream.CompleteAsync();
        var reasons = new List<string>();
        while (await call.ResponseStream.MoveNext(Token))
        {
            reasons.Add(call.ResponseStream.Current.Error.Info().Reason);
        }

        Assert.Equal(
            ["PHOTO_FORMAT_NOT_ALLOWED", "PHOTO_FORMAT_NOT_ALLOWED", "QUOTA_EXCEEDED", "QUOTA_EXCEEDED"], reasons.Order());
    }

    [Theory]
    [InlineData("CoatScan:Quotas:MaxPhotos", "photos")]
    [InlineData("CoatScan:Quotas:Tenants:north:MaxPhotoBytes", "photo_bytes")]
    public async Task Quota_of_photos_is_named_and_a_retry_does_not_help(string setting, string quota)
    {
        var value = quota == "photos" ? "1" : $"{Panels.Sound.Length + 100}";
        await using var server = await KeyedServer.StartAsync((setting, value));
        using var caller = await server.AsAsync("north", AccessScope.Admin);
        var photo = await caller.Photos.SendAsync(Uploads.Of(Panels.Sound));

        var error = await Assert.ThrowsAsync<RpcException>(() => caller.Photos.SendAsync(Uploads.Of(Panels.Large())));
        using var content = new ByteArrayContent(Panels.Large());
        using var json = await caller.Http.PostAsync("/v1/photos:upload", content, Token);
        var again = await caller.Photos.SendAsync(Uploads.Of(Panels.Sound));

        var status = error.GetRpcStatus()!;
        Assert.Equal(("QUOTA_EXCEEDED", quota), (status.Info().Reason, status.Info().Metadata["quota"]));
        Assert.Null(status.GetDetail<RetryInfo>());
        Assert.Equal("-1", error.Trailers.GetValue("grpc-retry-pushback-ms"));
        Assert.Equal(HttpStatusCode.TooManyRequests, json.StatusCode);
        Assert.Equal(photo.Name, again.Name);
        Assert.Equal(0, server.HalfReceived());
    }
}
