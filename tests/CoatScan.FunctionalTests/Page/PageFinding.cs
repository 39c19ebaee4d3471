using System.Net;

namespace CoatScan.FunctionalTests.Page;

/// <summary>A finding made as the page's form makes one: an invented door with rust at its edge, of the claim <c>views</c>.</summary>
internal static class PageFinding
{
    /// <returns>Its address.</returns>
    public static async Task<string> MakeAsync(HttpClient http, CancellationToken cancellationToken)
    {
        using var form = new MultipartFormDataContent
        {
            { new StringContent("views"), "reference" },
            { new StringContent("door"), "panel" },
            { new ByteArrayContent(await File.ReadAllBytesAsync(Window.Photo("rust-lower-edge"), cancellationToken)), "photos", "door.jpg" },
        };
        using var answer = await http.PostAsync("/findings", form, cancellationToken);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return answer.RequestMessage!.RequestUri!.AbsolutePath;
    }
}
