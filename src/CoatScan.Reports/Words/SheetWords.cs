using System.Globalization;
using System.Resources;
using System.Runtime.CompilerServices;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>The words of the sheets in one language, from <c>SheetWords.{language}.resx</c>.</summary>
/// <remarks>A further language is a further file with the same keys; what the finding itself says is in <see cref="TradeWords"/>.</remarks>
public sealed partial class SheetWords
{
    private readonly ResourceManager _resources;

    private SheetWords(string language)
    {
        Language = language;
        _resources = new ResourceManager($"SheetWords.{language}", typeof(SheetWords).Assembly);
    }

    /// <summary>American English.</summary>
    public static SheetWords English { get; } = new("en");

    /// <summary>Every language that the sheets speak, the one spoken without a choice first.</summary>
    public static IReadOnlyList<SheetWords> All { get; } = [English, new("de"), new("es")];

    /// <summary>The words in a language; English where the sheets do not speak it.</summary>
    public static SheetWords Of(string language) => All.FirstOrDefault(one => one.Language == language) ?? English;

    /// <summary>The language as HTML names it.</summary>
    public string Language { get; }

    /// <summary>What findings say, in this language.</summary>
    public TradeWords Trade => TradeWords.Of(Language);

    /// <summary>What is done, in words; an id that is not known as words.</summary>
    public string Operation(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        return Find("Operation." + id) ?? Phrases.OfId(id);
    }

    /// <summary>How numbers and days are written.</summary>
    public ReaderFormat Format => ReaderFormat.Of(Language);

    /// <summary>A text with its blanks filled in.</summary>
    internal string Fill(string text, params object[] values) => Format.Fill(text, values);

    /// <summary>A measured value to as many places as its uncertainty supports.</summary>
    internal string MeasuredValue(double value, double? uncertainty) => Shares.Measured(value, uncertainty, Format.Marks);

    /// <summary>A plain figure, two places at most.</summary>
    internal string Figure(double value) => value.ToString("0.##", Format.Marks);

    /// <summary>Percent; the ends are never rounded to certainty.</summary>
    internal string Percent(double probability) => Trade.Say(ShareText.Percent(probability));

    /// <summary>Name of a metric.</summary>
    internal string Metric(string id) => Trade.Say(MetricName.Of(id));

    /// <summary>Name of a metric where the number beside it carries the unit.</summary>
    internal string MetricWithoutUnit(string id) => Trade.Say(MetricName.WithoutUnit(id));

    internal string OutlineLayer(OutlineKind kind) => Get($"Outline.{kind}.Layer");

    internal string OutlineCaption(OutlineKind kind) => Get($"Outline.{kind}.Caption");

    internal string VisualClass(string id) => Find("VisualClass." + id) ?? Phrases.OfId(id);

    internal string PhotoIssue(PhotoIssueCode code) => Get("PhotoIssue." + code);

    internal string VerdictShort(Verdict verdict) => Get("Verdict." + verdict);

    internal string PartyVerdict(Verdict verdict) =>
        verdict is Verdict.Conclusive or Verdict.Provisional ? Get("Party." + verdict) : Get("Party.Open");

    internal string TimingClass(TimingClass timing) => Get("Timing." + timing);

    internal string WhiteBalance(WhiteBalanceSource source) => Get("WhiteBalance." + source);

    internal string Scope(string scope) => Find("Scope." + scope) ?? "";

    internal string Trace(int invasiveness) => Get("Trace." + Math.Clamp(invasiveness, 0, 3).ToString(CultureInfo.InvariantCulture));

    internal string RemedyRange((RemedyClass Lightest, RemedyClass Heaviest)? range) => range switch
    {
        null => "",
        var (lightest, heaviest) when lightest == heaviest => Get("Remedy." + lightest),
        var (lightest, heaviest) => Fill(RangeOf, Get("Remedy." + lightest), Get("Remedy." + heaviest)),
    };

    /// <summary>A unit as people write it, with its space in front; empty for a ratio or a count.</summary>
    internal string Unit(string ucum) => ucum is "" or "1" ? "" : " " + (Find("Unit." + ucum) ?? ucum.Trim('{', '}', '[', ']'));

    internal IReadOnlyList<string> GuideBefore => [.. Enumerable.Range(1, 3).Select(number => Get(Fill("GuideBefore.{0}", number)))];

    internal (string Name, string How, string Alternative) Guide(GuidePicture picture) =>
        (Get($"Guide.{picture}.Name"), Get($"Guide.{picture}.How"), Get($"Guide.{picture}.Alternative"));

    private string? Find(string key) => _resources.GetString(key, CultureInfo.InvariantCulture);

    private string Get([CallerMemberName] string key = "") =>
        Find(key) ?? throw new InvalidOperationException($"SheetWords.{Language} has no text for {key}.");
}
