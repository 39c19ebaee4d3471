using System.Net;
using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace CoatScan.FunctionalTests.Infrastructure;

/// <summary>An OpenID provider of this test: a discovery document and a key on a loopback port, and tokens signed with it.</summary>
internal sealed class OpenIdProvider : IAsyncDisposable
{
    public const string Audience = "coatscan-service";

    private readonly RSA _key = RSA.Create(2048);
    private readonly WebApplication _application;

    private OpenIdProvider(WebApplication application) => _application = application;

    public string Issuer => _application.Services.GetRequiredService<IServer>().Features
        .Get<IServerAddressesFeature>()!.Addresses.Single();

    /// <summary>The public key as a file, for those who try it as a secret.</summary>
    public byte[] PublicKey => _key.ExportSubjectPublicKeyInfo();

    public static async Task<OpenIdProvider> StartAsync()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0));
        var provider = new OpenIdProvider(builder.Build());
        provider._application.MapGet("/.well-known/openid-configuration", () => Results.Json(new Dictionary<string, string>
        {
            ["issuer"] = provider.Issuer,
            ["jwks_uri"] = $"{provider.Issuer}/keys",
        }));
        provider._application.MapGet("/keys", () =>
        {
            var key = JsonWebKeyConverter.ConvertFromRSASecurityKey(new RsaSecurityKey(provider._key.ExportParameters(false)) { KeyId = "one" });
            return Results.Text(
                JsonSerializer.Serialize(new { keys = new[] { new { kty = key.Kty, kid = key.Kid, use = "sig", n = key.N, e = key.E } } }),
                "application/json");
        });
        await provider._application.StartAsync(TestContext.Current.CancellationToken);
        return provider;
    }

    /// <summary>A token that is as it should be, until something is changed.</summary>
    public string Token(
        object? tenant = null,
        object? scope = null,
        string? audience = Audience,
        string? issuer = null,
        TimeSpan? from = null,
        TimeSpan? to = null,
        SecurityKey? signWith = null,
        string algorithm = SecurityAlgorithms.RsaSha256)
    {
        var now = TimeProvider.System.GetUtcNow().UtcDateTime;
        var claims = new Dictionary<string, object> { ["sub"] = "scanner-7" };
        Add("tenant", tenant ?? "north");
        Add("scope", scope ?? "openid coatscan.write");
        var key = signWith ?? new RsaSecurityKey(_key) { KeyId = "one" };
        return new JsonWebTokenHandler { SetDefaultTimesOnTokenCreation = false }.CreateToken(new SecurityTokenDescriptor
        {
            Issuer = issuer ?? Issuer,
            Audience = audience,
            NotBefore = now + (from ?? TimeSpan.FromMinutes(-1)),
            Expires = now + (to ?? TimeSpan.FromMinutes(5)),
            Claims = claims,
            SigningCredentials = algorithm == SecurityAlgorithms.None ? null : new SigningCredentials(key, algorithm),
        });

        void Add(string name, object value)
        {
            if (value is not "")
            {
                claims[name] = value;
            }
        }
    }

    public async ValueTask DisposeAsync()
    {
        await _application.DisposeAsync();
        _key.Dispose();
    }
}
