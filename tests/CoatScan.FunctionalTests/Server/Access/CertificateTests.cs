using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using CoatScan.FunctionalTests.CommandLine;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.Service.Hosting;
using Grpc.Core;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;

namespace CoatScan.FunctionalTests.Server.Access;

/// <summary>TLS, and client certificates as credentials.</summary>
public sealed class CertificateTests : IAsyncLifetime
{
    private const string ClientAuthentication = "1.3.6.1.5.5.7.3.2";

    private readonly TempFolder _temp = new();
    private readonly X509Certificate2 _authority = Make("CN=authority of the test", null, isAuthority: true);
    private readonly X509Certificate2 _service = Make("CN=localhost", null);
    private readonly X509Certificate2 _pinned = Make("CN=pinned", null);
    private readonly X509Certificate2 _old = Make("CN=old", null, fromDays: -30, toDays: -1);
    private WebApplication _application = null!;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask InitializeAsync()
    {
        _application = CoatScanHost.Build(new CoatScanHostSettings
        {
            DataFolder = Path.Combine(_temp.Path, "data"),
            GrpcPort = 0,
            HttpPort = 0,
            Quiet = true,
            Overrides = new Dictionary<string, string?>
            {
                ["CoatScan:Tls:CertificatePath"] = _temp.Write("service.pem", _service.ExportCertificatePem()),
                ["CoatScan:Tls:KeyPath"] = _temp.Write("service.key", _service.GetECDsaPrivateKey()!.ExportPkcs8PrivateKeyPem()),
                ["CoatScan:Access:ApiKeys"] = "true",
                ["CoatScan:Access:ClientAuthorityPath"] = _temp.Write("authority.pem", _authority.ExportCertificatePem()),
                ["CoatScan:Access:ClientCertificates:0:Sha256"] = DigestOf(_pinned),
                ["CoatScan:Access:ClientCertificates:0:Tenant"] = "north",
                ["CoatScan:Access:ClientCertificates:0:Scope"] = "Write",
                ["CoatScan:Access:ClientCertificates:1:Subject"] = "scanner",
                ["CoatScan:Access:ClientCertificates:1:Tenant"] = "south",
                ["CoatScan:Access:ClientCertificates:1:Scope"] = "Read",
                ["CoatScan:Access:ClientCertificates:2:Sha256"] = DigestOf(_old),
                ["CoatScan:Access:ClientCertificates:2:Tenant"] = "north",
            },
        });
        await _application.StartAsync(Token);
    }

    public async ValueTask DisposeAsync()
    {
        await _application.DisposeAsync();
        _authority.Dispose();
        _service.Dispose();
        _pinned.Dispose();
        _old.Dispose();
        _temp.Dispose();
    }

    [Fact]
    public async Task Pinned_certificate_and_one_of_the_authority_open_their_own_tenants()
    {
        using var north = ChannelOf(_pinned);
        using var south = ChannelOf(Make("CN=scanner", _authority));
        var toNorth = new V1.FindingService.FindingServiceClient(north);
        var toSouth = new V1.FindingService.FindingServiceClient(south);

        var finding = await toNorth.RankCausesAsync(new() { Facts = new() { Evidence = { "form.domes" } } });
        var refused = await Errors.OfAsync(() => toSouth.RankCausesAsync(new() { Facts = new() { Evidence = { "form.domes" } } }));

        Assert.Single((await toNorth.ListFindingsAsync(new())).Findings, finding);
        Assert.Empty((await toSouth.ListFindingsAsync(new())).Findings);
        Assert.Equal("FORBIDDEN", refused.Info().Reason);
    }

    [Theory]
    [InlineData("none")]
    [InlineData("one that nobody named")]
    [InlineData("one that has ended")]
    [InlineData("one that signs its name itself")]
    [InlineData("one of another authority")]
    [InlineData("one of the authority with another name")]
    [InlineData("one of the authority for a server")]
    public async Task Certificate_that_must_not_open_is_unauthenticated(string fault)
    {
        using var otherAuthority = Make("CN=authority of the test", null, isAuthority: true);
        var certificate = fault switch
        {
            "none" => null,
            "one that nobody named" => Make("CN=stranger", null),
            "one that has ended" => _old,
            "one that signs its name itself" => Make("CN=scanner", null),
            "one of another authority" => Make("CN=scanner", otherAuthority),
            "one of the authority with another name" => Make("CN=scanner2", _authority),
            _ => Make("CN=scanner", _authority, purpose: "1.3.6.1.5.5.7.3.1"),
        };
        using var channel = ChannelOf(certificate);
        using var http = ClientOf(certificate);

        var error = await Assert.ThrowsAsync<RpcException>(async () =>
            await new V1.FindingService.FindingServiceClient(channel).ListFindingsAsync(new()));
        using var response = await http.GetAsync($"{Address(1)}/v1/findings", Token);
        using var live = await http.GetAsync($"{Address(1)}/health/live", Token);

        Assert.Equal(StatusCode.Unauthenticated, error.StatusCode);
        Assert.Equal("UNAUTHENTICATED", error.GetRpcStatus()!.Info().Reason);
        Assert.Equal(HttpStatusCode.Unauthorized, response.StatusCode);
        Assert.Equal(HttpStatusCode.OK, live.StatusCode);
    }

    [Fact]
    public async Task Key_opens_where_certificates_do_too_and_both_ports_speak_both_protocols()
    {
        var key = await _application.Services.GetRequiredService<Storage.Keys.ApiKeyStore>()
            .CreateAsync(new Findings.Tenant("west"), Findings.AccessScope.Read, "", null, Token);
        using var http = ClientOf(null);
        http.DefaultRequestHeaders.Authorization = new("Bearer", key.Text);
        foreach (var port in new[] { 0, 1 })
        {
            using var response = await http.GetAsync($"{Address(port)}/v1/findings", Token);
            Assert.Equal(HttpStatusCode.OK, response.StatusCode);
        }
    }

    private static X509Certificate2 Make(
        string subject,
        X509Certificate2? issuer,
        bool isAuthority = false,
        int fromDays = -1,
        int toDays = 1,
        string purpose = ClientAuthentication)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest(subject, key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(isAuthority, false, 0, true));
        if (!isAuthority && subject != "CN=localhost")
        {
            request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(purpose)], false));
        }

        var now = TimeProvider.System.GetUtcNow();
        if (issuer is null)
        {
            return Usable(request.CreateSelfSigned(now.AddDays(fromDays), now.AddDays(toDays)));
        }

        // An issued certificate must end no later than its authority.
        using var issued = request.Create(
            issuer, now.AddDays(fromDays).AddHours(1), now.AddDays(toDays).AddHours(-1), RandomNumberGenerator.GetBytes(8));
        return Usable(issued.CopyWithPrivateKey(key));
    }

    private static X509Certificate2 Usable(X509Certificate2 certificate)
    {
        using (certificate)
        {
            return X509CertificateLoader.LoadPkcs12(
                certificate.Export(X509ContentType.Pfx), null, X509KeyStorageFlags.Exportable);
        }
    }

    private static string DigestOf(X509Certificate2 certificate) => certificate.GetCertHashString(HashAlgorithmName.SHA256);

    private string Address(int index) => _application.Services.GetRequiredService<IServer>().Features
        .Get<IServerAddressesFeature>()!.Addresses.ElementAt(index);

    private GrpcChannel ChannelOf(X509Certificate2? certificate) =>
        GrpcChannel.ForAddress(Address(0), new GrpcChannelOptions { HttpHandler = HandlerOf(certificate), DisposeHttpClient = true });

    private HttpClient ClientOf(X509Certificate2? certificate) => new(HandlerOf(certificate));

    private SocketsHttpHandler HandlerOf(X509Certificate2? certificate)
    {
        var handler = new SocketsHttpHandler();
        var expected = DigestOf(_service);
        handler.SslOptions.RemoteCertificateValidationCallback = (_, shown, _, _) =>
            shown is X509Certificate2 known && DigestOf(known) == expected;
        if (certificate is not null)
        {
            handler.SslOptions.ClientCertificates = [certificate];
            handler.SslOptions.LocalCertificateSelectionCallback = (_, _, _, _, _) => certificate;
        }

        return handler;
    }
}
