using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using CoatScan.Cli.Connection;

namespace CoatScan.Cli.Json;

/// <summary>Refused photos and cases as one line of JSON each.</summary>
internal static class ErrorJson
{
    // The line goes to a program, not into a web page: quotes and letters beyond ASCII may stay readable.
    private static readonly JsonWriterOptions Options = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>One line, without its end.</summary>
    /// <param name="error">What is wrong.</param>
    /// <param name="kind">What was refused: <c>photo</c> or <c>case</c>; null where the position tells.</param>
    /// <param name="name">Its name.</param>
    public static string Line(ServiceError error, string? kind = null, string name = "")
    {
        ArgumentNullException.ThrowIfNull(error);
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, Options))
        {
            json.WriteStartObject();
            if (kind is not null)
            {
                json.WriteString(kind, name);
            }

            json.WriteStartObject("error");
            json.WriteString("code", error.Code);
            json.WriteString("reason", error.Reason);
            json.WriteString("message", error.Message);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(bytes.GetBuffer(), 0, (int)bytes.Length);
    }
}
