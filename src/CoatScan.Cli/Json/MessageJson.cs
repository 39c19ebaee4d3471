using Google.Protobuf;

namespace CoatScan.Cli.Json;

/// <summary>Messages of the contract as one line of JSON each (proto3 JSON mapping, default values written).</summary>
internal static class MessageJson
{
    private static readonly JsonFormatter Formatter = new(
        JsonFormatter.Settings.Default.WithFormatDefaultValues(true));

    /// <summary>One line, without its end.</summary>
    public static string Line(IMessage message) => Formatter.Format(message);
}
