using System.Globalization;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;

namespace CoatScan.FuzzTests.Targets;

/// <summary>Requests to the JSON endpoint: a first line with method and path, then the body.</summary>
internal sealed class JsonTarget(HttpClient http) : IFuzzTarget
{
    private static readonly MediaTypeHeaderValue Json = new("application/json");

    // A watched batch that nobody starts is watched for ever.
    private static readonly TimeSpan LongestWatch = TimeSpan.FromMilliseconds(300);

    /// <inheritdoc/>
    public string Name => "json";

    /// <inheritdoc/>
    public IEnumerable<byte[]> Seeds =>
        ((string[])[
            "POST /v1/findings:rank\n{\"facts\":{\"evidence\":[\"form.rings\",\"form.domes\"],\"readings\":{\"filmUm\":[118,125],\"gloss60\":88.5," +
                "\"deltaE00\":1.2,\"filmPanels\":[{\"panel\":\"hood\",\"filmUm\":[120]}]},\"statements\":[{\"evidence\":\"form.rings\",\"saidBy\":\"owner\"}]," +
                "\"appliedOn\":\"2024-02-29\",\"panel\":\"hood\",\"externalRef\":\"a\"},\"validateOnly\":true}",
            "POST /v1/findings:analyze\n{\"photo\":{\"content\":\"/9j/4AAQ\",\"displayName\":\"a.jpg\"},\"facts\":{\"mmPerPx\":0.2}," +
                "\"compareZones\":{\"first\":{\"xPx\":1,\"yPx\":1,\"widthPx\":20,\"heightPx\":20},\"second\":{\"xPx\":40,\"widthPx\":9,\"heightPx\":9}}}",
            "POST /v1/findings:analyzePanel\n{\"photos\":[{\"content\":\"iVBORw0KGgo=\"},{\"photo\":\"photos/00\"}],\"requestId\":\"7f0e\"}",
            "GET /v1/findings?pageSize=2&pageToken=AQ\n",
            "GET /v1/findings/0199\n",
            "DELETE /v1/findings/0199\n",
            "POST /v1/findings/0199:verify\n{}",
            "GET /v1/photos/00\n",
            "GET /v1/photos/00:findSimilar?maxDistance=8\n",
            "POST /v1/photos:upload\nnot a photo",
            "POST /v1/batches\n{\"batchId\":\"lot-1\",\"batch\":{\"displayName\":\"x\"},\"requestId\":\"5d0bf2e7-63a5-4b8c-8b5c-0a3b6ad0f6b1\"}",
            "POST /v1/batches/lot-1:addItems\n{\"items\":[{\"key\":\"a\",\"vehicleRef\":\"v\",\"panel\":\"hood\",\"photos\":[\"photos/00\"],\"facts\":{}}]}",
            "POST /v1/batches/lot-1:start\n{\"etag\":\"1\"}",
            "POST /v1/batches/lot-1:cancel\n{}",
            "POST /v1/batches/lot-1:retry\n{}",
            "GET /v1/batches/lot-1/items?states=FAILED&pageSize=1\n",
            "GET /v1/batches/lot-1/vehicles\n",
            "GET /v1/batches/lot-1:watch?startSequence=1\n",
            "GET /v1/batches?pageSize=1\n",
            "GET /v1/conditions?pageSize=3\n",
            "GET /v1/conditions/blistering\n",
            "GET /v1/evidence?pageSize=3\n",
            "GET /v1/serverInfo\n",
            "POST /v1/sprayDay:plan\n{\"airC\":24,\"humidityPercent\":60,\"panelC\":22,\"finish\":\"basecoat_clearcoat\",\"job\":\"one_panel\"," +
                "\"forecast\":[{\"hour\":\"2026-05-01T08:00\",\"airC\":18,\"humidityPercent\":70}]}",
        ]).Select(Encoding.UTF8.GetBytes);

    /// <inheritdoc/>
    public byte[] Mutate(Mutator mutator, IReadOnlyList<byte[]> corpus)
    {
        var input = mutator.Pick(corpus);
        return mutator.Change(input, corpus, mutator.Random.Next(3) > 0 ? Array.IndexOf(input, (byte)'\n') + 1 : 0);
    }

    /// <inheritdoc/>
    public async Task<string> RunAsync(byte[] prepared)
    {
        var lineEnd = Array.IndexOf(prepared, (byte)'\n');
        var line = Encoding.UTF8.GetString(prepared.AsSpan(0, Math.Max(0, lineEnd))).Split(' ', 2);
        if (line.Length < 2 || !line[1].StartsWith('/') || !Uri.TryCreate(http.BaseAddress, line[1], out var address)
            || address.Host != http.BaseAddress!.Host || !line[0].All(char.IsAsciiLetter) || line[0] is "" or "CONNECT")
        {
            return "no request of HTTP";
        }

        using var request = new HttpRequestMessage(new HttpMethod(line[0]), address);
        if (line[0] is not "GET")
        {
            request.Content = new ByteArrayContent(prepared[(lineEnd + 1)..]);
            request.Content.Headers.ContentType = Json;
        }

        using var response = await http.SendAsync(request, HttpCompletionOption.ResponseHeadersRead);
        var status = (int)response.StatusCode;
        if (response.IsSuccessStatusCode || status is >= 300 and < 400)
        {
            await DrainAsync(response);
            return string.Create(CultureInfo.InvariantCulture, $"{line[0]} {status}");
        }

        var reason = Reason(status, await response.Content.ReadAsStringAsync());
        return string.Create(CultureInfo.InvariantCulture, $"{status} {reason}");
    }

    private static async Task DrainAsync(HttpResponseMessage response)
    {
        using var longest = new CancellationTokenSource(LongestWatch);
        try
        {
            await response.Content.CopyToAsync(Stream.Null, longest.Token);
        }
        catch (OperationCanceledException)
        {
            // It was a watch.
        }
    }

    private static string Reason(int status, string body)
    {
        // Kestrel's and the router's own answers: a line that is none of HTTP, a path or method that is none of ours.
        if (body.Length == 0 && status is 400 or 404 or 405 or 415)
        {
            return "without a body";
        }

        try
        {
            using var json = JsonDocument.Parse(body);
            var message = TextShape.Of(json.RootElement.GetProperty("message").GetString()!);
            foreach (var detail in json.RootElement.GetProperty("details").EnumerateArray())
            {
                if (detail.TryGetProperty("reason", out var reason) && DeclaredReasons.Has(reason.GetString()!))
                {
                    return $"{reason} {message}";
                }
            }
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            // As without a reason.
        }

        throw new UndeclaredOutcomeException($"{status} without a declared reason: {TextShape.Of(body)}");
    }
}
