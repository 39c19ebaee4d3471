using System.Text.Encodings.Web;
using System.Text.Json;
using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Service.Mapping;
using Google.Protobuf;
using Code = Google.Rpc.Code;

namespace CoatScan.Service.Page;

/// <summary>One panel of a lane as one line of JSON, for programs: as the command line writes it.</summary>
internal static class LaneLine
{
    private static readonly JsonFormatter Findings = new(JsonFormatter.Settings.Default.WithFormatDefaultValues(true));

    // The line goes to a program, not into a page: quotes and letters beyond ASCII may stay readable.
    private static readonly JsonSerializerOptions Errors = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>A finding.</summary>
    public static string Of(Finding finding) => Findings.Format(FindingMapping.ToWire(finding));

    /// <summary>A panel that has none, and why.</summary>
    public static string Of(string panel, ItemError error)
    {
        var code = UpperSnake.Of((Code)BatchMapping.ToWire(error).Code);
        return JsonSerializer.Serialize(new { photo = panel, error = new { code, reason = UpperSnake.Of(error.Reason), message = error.Message } }, Errors);
    }
}
