using CoatScan.Reports;
using CoatScan.V1;

namespace CoatScan.Cli.Text;

/// <summary>Words for ids of the contract that carry no text of their own.</summary>
internal static class TradeWords
{
    /// <summary>The condition that is no fault.</summary>
    public const string SoundCondition = "conditions/sound";

    /// <summary>What is done, in words.</summary>
    public static string Operation(string id) => SheetWords.English.Operation(id);

    /// <summary>How much a test takes from the paint.</summary>
    public static string Trace(int invasiveness) => invasiveness switch
    {
        <= 0 => "leaves no trace",
        1 => "touches the surface",
        2 => "costs a little paint: use a hidden place",
        _ => "destroys the spot",
    };

    /// <summary>When a thing must not be done.</summary>
    public static string Scope(string scope) => scope switch
    {
        "until_met" => "not before that is cleared",
        "now" => "not while this is open",
        _ => "",
    };

    /// <summary>How it came, in words; empty if that cannot be told.</summary>
    public static string Timing(string timingClass) => timingClass switch
    {
        "GRADUAL" => "over months or years",
        "EVENT" => "at once, from an event",
        "EVENT_OR_ACCUMULATED" => "from one event or many small ones",
        "WORKMANSHIP" => "from the way it was painted",
        "AGEING_OR_WORKMANSHIP" => "from age or from the way it was painted",
        _ => "",
    };

    /// <summary>A unit as people write it, with its space in front; empty for a ratio or a count.</summary>
    public static string Unit(string ucum) => ucum switch
    {
        "" or "1" => "",
        "[px]" or "px" or "{px}" or "{pixel}" => " px",
        "%" => " %",
        "um" => " micrometers",
        "1/cm2" or "/cm2" => " per square centimeter",
        "1/mm" or "/mm" => " per millimeter",
        "/dm2" => " per square decimeter",
        "/{px}" => " per pixel",
        "/{Mpx}" => " per megapixel",
        "deg" => " degrees",
        _ => " " + ucum.Trim('{', '}', '[', ']'),
    };

    /// <summary>A condition's trade name, from the finding where it is named there.</summary>
    public static string Condition(Finding finding, string name)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var share = finding.Conditions.FirstOrDefault(one => one.Condition == name);
        return string.IsNullOrEmpty(share?.DisplayName) ? Phrase.Capital(Phrase.OfId(name)) : share.DisplayName;
    }
}
