using System.Globalization;
using System.Resources;
using System.Runtime.CompilerServices;
using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Reports;
using RemedyClass = CoatScan.Batches.RemedyClass;

namespace CoatScan.Service.Page.Words;

/// <summary>The words of the page in one language, from <c>PageWords.{language}.resx</c>.</summary>
public sealed partial class PageWords
{
    private const double MuchBits = 0.5;
    private const double SomeBits = 0.1;

    private readonly ResourceManager _resources;

    private PageWords(string language)
    {
        Language = language;
        _resources = new ResourceManager($"PageWords.{language}", typeof(PageWords).Assembly);
    }

    /// <summary>Every language that the page speaks, the one spoken without a choice first.</summary>
    public static IReadOnlyList<PageWords> All { get; } = [new("en"), new("de"), new("es")];

    /// <summary>The language as HTML names it.</summary>
    public string Language { get; }

    /// <summary>The words in a language; null if the page does not speak it.</summary>
    public static PageWords? Of(string language) => All.FirstOrDefault(one => one.Language == language);

    /// <summary>How numbers and days are written.</summary>
    public ReaderFormat Format => ReaderFormat.Of(Language);

    /// <summary>A text with its blanks filled in.</summary>
    public string Fill(string text, params object[] values) => Format.Fill(text, values);

    /// <summary>How much a test is expected to tell, in words: a bit halves what is open.</summary>
    internal string Gain(double bits) => Get(bits switch { >= MuchBits => "Gain.Much", >= SomeBits => "Gain.Some", _ => "Gain.Little" });

    /// <summary>So many panels.</summary>
    internal string PanelCount(int count) => count == 1 ? Get("OnePanel") : Fill(Get("Panels"), count);

    /// <summary>So many photos.</summary>
    internal string PhotoCount(int count) => count == 1 ? OnePhoto : Fill(ManyPhotos, count);

    /// <summary>So many vehicles.</summary>
    internal string VehicleCount(int count) => count == 1 ? OneVehicle : Fill(LaneVehicles, count);

    internal string State(BatchState state) => Get("State." + state);

    internal string Verdict(Verdict verdict) => Get("Verdict." + verdict);

    internal string Remedy(RemedyClass remedy) => Get("Remedy." + remedy);

    internal string Trace(int invasiveness) => Get("Trace." + Math.Clamp(invasiveness, 0, 3).ToString(CultureInfo.InvariantCulture));

    /// <summary>Name of a group of the evidence vocabulary; its id as words where the page has no name for it.</summary>
    public string Group(string group) => Find("Group." + group) ?? group.Replace('_', ' ');

    /// <summary>Why something was refused, in words and with what to do; null where only the refusal's own words say it.</summary>
    public string? Refusal(ErrorReason reason) => Find("Refusal." + reason);

    /// <summary>Every text by its key.</summary>
    internal IReadOnlyDictionary<string, string> Texts() =>
        _resources.GetResourceSet(CultureInfo.InvariantCulture, createIfNotExists: true, tryParents: false)!
            .Cast<System.Collections.DictionaryEntry>()
            .ToDictionary(one => (string)one.Key, one => (string)one.Value!, StringComparer.Ordinal);

    private string? Find(string key) => _resources.GetString(key, CultureInfo.InvariantCulture);

    private string Get([CallerMemberName] string key = "") =>
        Find(key) ?? throw new InvalidOperationException($"PageWords.{Language} has no text for {key}.");
}
