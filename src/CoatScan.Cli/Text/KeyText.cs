using System.Globalization;
using CoatScan.Service.Hosting;

namespace CoatScan.Cli.Text;

/// <summary>API keys for people.</summary>
internal static class KeyText
{
    private static readonly string[] Heads = ["key", "tenant", "scope", "made", "state", "name"];

    /// <summary>One key in a line.</summary>
    public static string Of(KeyInfo key, ReaderWords words) => key.ExpireTime is { } end
        ? words.Fill("Key {0} of {1}, scope {2}, until {3}", key.Id, key.Tenant, key.Scope, Minute(end))
        : words.Fill("Key {0} of {1}, scope {2}, without an end", key.Id, key.Tenant, key.Scope);

    /// <summary>A table of keys.</summary>
    public static void Write(TextPage page, IReadOnlyList<KeyInfo> keys, int widthColumns)
    {
        if (keys.Count == 0)
        {
            page.Paragraph(page.Words.Fill("There are no keys."));
            return;
        }

        TextTable.Write(
            page,
            widthColumns,
            [.. Heads.Select(head => page.Words.Fill(head))],
            [.. keys.Select(key => (string[])[key.Id, key.Tenant, key.Scope, Day(key.CreateTime), StateOf(key, page.Words), key.DisplayName])]);
    }

    private static string StateOf(KeyInfo key, ReaderWords words) => key switch
    {
        { RevokeTime: { } time } => words.Fill("revoked {0}", Minute(time)),
        { ExpireTime: { } time, Holds: false } => words.Fill("ended {0}", Minute(time)),
        { ExpireTime: { } time } => words.Fill("holds until {0}", Minute(time)),
        _ => words.Fill("holds"),
    };

    private static string Day(DateTimeOffset time) => time.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Minute(DateTimeOffset time) => time.ToString("yyyy-MM-dd HH:mm'Z'", CultureInfo.InvariantCulture);
}
