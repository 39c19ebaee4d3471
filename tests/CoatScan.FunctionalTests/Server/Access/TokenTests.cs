using System.Net;
using System.Security.Cryptography;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Microsoft.IdentityModel.Tokens;

namespace CoatScan.FunctionalTests.Server.Access;

/// <summary>Tokens of an OpenID provider: what opens the service, and everything that must not.</summary>
public sealed class TokenTests : IAsyncLifetime
{
    private static readonly RankCausesRequest Question = new() { Facts = new() { Evidence = { "form.domes" } } };

    private OpenIdProvider _provider = null!;
    private RunningServer _server = null!;

    public async ValueTask InitializeAsync()
    {
        _provider = await OpenIdProvider.StartAsync();
        _server = await RunningServer.StartAsync(
            ("CoatScan:Access:JwtAuthority", _provider.Issuer), ("CoatScan:Access:JwtAudience", OpenIdProvider.Audience));
    }

    public async ValueTask DisposeAsync()
    {
        await _server.DisposeAsync();
        await _provider.DisposeAsync();
    }

    [Fact]
    public async Task Token_opens_its_tenant_with_its_scope()
    {
        using var north = _server.As(_provider.Token());
        using var south = _server.As(_provider.Token(tenant: "south", scope: new[] { "coatscan.read" }));

        var finding = await north.Findings.RankCausesAsync(Question);

        Assert.Equal(finding, await north.Findings.GetFindingAsync(new() { Name = finding.Name }));
        Assert.Empty((await south.Findings.ListFindingsAsync(new())).Findings);
        Assert.Equal("FORBIDDEN", (await Errors.OfAsync(() => south.Findings.RankCausesAsync(Question))).Info().Reason);
        Assert.Equal("FORBIDDEN", (await Errors.OfAsync(() => north.Findings.DeleteFindingAsync(new() { Name = finding.Name }))).Info().Reason);
    }

    [Theory]
    [InlineData("another audience")]
    [InlineData("no audience")]
    [InlineData("another issuer")]
    [InlineData("expired")]
    [InlineData("not yet valid")]
    [InlineData("signed by another key")]
    [InlineData("not signed")]
    [InlineData("signed with the public key as a secret")]
    [InlineData("no tenant")]
    [InlineData("two tenants")]
    [InlineData("a tenant that is a path")]
    [InlineData("cut off")]
    [InlineData("an API key")]
    public async Task Token_that_must_not_open_is_unauthenticated(string fault)
    {
        using var stranger = RSA.Create(2048);
        var token = fault switch
        {
            "another audience" => _provider.Token(audience: "another-service"),
            "no audience" => _provider.Token(audience: null),
            "another issuer" => _provider.Token(issuer: "https://issuer.example"),
            "expired" => _provider.Token(from: TimeSpan.FromHours(-2), to: TimeSpan.FromHours(-1)),
            "not yet valid" => _provider.Token(from: TimeSpan.FromHours(1), to: TimeSpan.FromHours(2)),
            "signed by another key" => _provider.Token(signWith: new RsaSecurityKey(stranger) { KeyId = "one" }),
            "not signed" => _provider.Token(algorithm: SecurityAlgorithms.None),
            "signed with the public key as a secret" => _provider.Token(
                signWith: new SymmetricSecurityKey(_provider.PublicKey) { KeyId = "one" }, algorithm: SecurityAlgorithms.HmacSha256),
            "no tenant" => _provider.Token(tenant: ""),
            "two tenants" => _provider.Token(tenant: new[] { "north", "south" }),
            "a tenant that is a path" => _provider.Token(tenant: "../south"),
            "cut off" => _provider.Token()[..^5],
            _ => (await _server.MakeKeyAsync("north", Findings.AccessScope.Admin)).Text,
        };
        using var caller = _server.As(token);

        var status = await Errors.OfAsync(() => caller.Findings.ListFindingsAsync(new()));
        var (reason, body) = await Errors.OfJsonAsync(caller.Http, HttpMethod.Get, "/v1/findings", null, HttpStatusCode.Unauthorized);

        Assert.Equal("UNAUTHENTICATED", status.Info().Reason);
        Assert.Equal("UNAUTHENTICATED", reason);
        Assert.DoesNotContain("IDX", body.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Token_without_a_scope_of_ours_is_forbidden_everything()
    {
        using var caller = _server.As(_provider.Token(scope: "openid email read"));

        var status = await Errors.OfAsync(() => caller.Findings.ListFindingsAsync(new()));

        Assert.Equal(("FORBIDDEN", "none"), (status.Info().Reason, status.Info().Metadata["scope"]));
    }
}
