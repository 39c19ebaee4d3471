using System.Globalization;
using CoatScan.Service.Hosting;

namespace CoatScan.Cli.Text;

/// <summary>API keys for people.</summary>
internal static class KeyText
{
    /// <summary>One key in a line.</summary>
    public static string Of(KeyInfo key) =>
        $"Key {key.Id} of {key.Tenant}, scope {key.Scope}, {(key.ExpireTime is { } end ? $"until {Minute(end)}" : "without an end")}";

    /// <summary>A table of keys.</summary>
    public static void Write(TextPage page, IReadOnlyList<KeyInfo> keys, int widthColumns)
    {
        if (keys.Count == 0)
        {
            page.Paragraph("There are no keys.");
            return;
        }

        TextTable.Write(
            page,
            widthColumns,
            ["key", "tenant", "scope", "made", "state", "name"],
            [.. keys.Select(key => (string[])[key.Id, key.Tenant, key.Scope, Day(key.CreateTime), StateOf(key), key.DisplayName])]);
    }

    private static string StateOf(KeyInfo key) => key switch
    {
        { RevokeTime: { } time } => $"revoked {Minute(time)}",
        { ExpireTime: { } time, Holds: false } => $"ended {Minute(time)}",
        { ExpireTime: { } time } => $"holds until {Minute(time)}",
        _ => "holds",
    };

    private static string Day(DateTimeOffset time) => time.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Minute(DateTimeOffset time) => time.ToString("yyyy-MM-dd HH:mm'Z'", CultureInfo.InvariantCulture);
}
