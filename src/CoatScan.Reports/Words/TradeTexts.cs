using System.Collections.Frozen;
using System.Text.Json;

namespace CoatScan.Reports;

/// <summary>What the knowledge base and the program say, in another language: <c>models/knowledge/texts</c>.</summary>
/// <remarks>
/// The English text is the key, because it is what a finding holds: a stored finding of any age is read in any language, and
/// a client needs no further word on the wire. <c>{0}</c> stands for a number or for a further text.
/// </remarks>
internal static class TradeTexts
{
    private const string Place = "texts/";

    private static readonly HashSet<string> OfComplaints = ["texts/complaints", "texts/refusals"];

    /// <summary>Every text: English, then by language.</summary>
    public static FrozenDictionary<string, FrozenDictionary<string, string>> All { get; }

    /// <summary>English of the texts that complain: in their blanks may stand what no language has a word for.</summary>
    public static FrozenSet<string> Complaints { get; }

    static TradeTexts()
    {
        var all = new Dictionary<string, FrozenDictionary<string, string>>(StringComparer.Ordinal);
        var complaints = new HashSet<string>(StringComparer.Ordinal);
        foreach (string name in typeof(TradeTexts).Assembly.GetManifestResourceNames().Where(one => one.StartsWith(Place, StringComparison.Ordinal)))
        {
            using JsonDocument file = JsonDocument.Parse(OwnResource.Bytes(name));
            foreach (JsonProperty text in file.RootElement.EnumerateObject())
            {
                if (OfComplaints.Contains(name))
                {
                    complaints.Add(text.Name);
                }

                if (!all.TryAdd(text.Name, text.Value.EnumerateObject().ToFrozenDictionary(one => one.Name, one => one.Value.GetString()!)))
                {
                    throw new InvalidOperationException($"{name} says twice what stands for: {text.Name}");
                }
            }
        }

        All = all.ToFrozenDictionary(StringComparer.Ordinal);
        Complaints = complaints.ToFrozenSet(StringComparer.Ordinal);
    }
}
