using System.Net.Http.Headers;

namespace CoatScan.Client;

/// <summary>Sends an API key or a token with every call.</summary>
internal sealed class CredentialHandler(string credential, HttpMessageHandler inner) : DelegatingHandler(inner)
{
    private readonly AuthenticationHeaderValue _header = new("Bearer", credential);

    /// <inheritdoc />
    protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
    {
        request.Headers.Authorization = _header;
        return base.SendAsync(request, cancellationToken);
    }
}
