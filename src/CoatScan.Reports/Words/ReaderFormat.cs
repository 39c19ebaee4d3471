using System.Globalization;
using System.Text.RegularExpressions;

namespace CoatScan.Reports;

/// <summary>Numbers and days as readers of a language write them; what programs read (JSON, CSV) never goes through here.</summary>
/// <remarks>
/// The program runs without cultures, so the marks stand here: a decimal comma in German and Spanish (the day 30.11.2026 and 30/11/2026), a decimal
/// point in English. The day in English is that of ISO 8601, which readers of every country read alike: 11/30 and 30/11 are both English.
/// </remarks>
public sealed partial class ReaderFormat
{
    private const string IsoDay = "yyyy-MM-dd";

    private static readonly ReaderFormat English = new(".", IsoDay);

    private static readonly Dictionary<string, ReaderFormat> Each = new(StringComparer.Ordinal)
    {
        ["en"] = English,
        ["de"] = new(",", "dd'.'MM'.'yyyy"),
        ["es"] = new(",", "dd'/'MM'/'yyyy"),
    };

    private readonly string _mark;
    private readonly string _day;

    private ReaderFormat(string mark, string day)
    {
        _mark = mark;
        _day = day;
        var marks = (NumberFormatInfo)CultureInfo.InvariantCulture.NumberFormat.Clone();
        marks.NumberDecimalSeparator = mark;
        Marks = NumberFormatInfo.ReadOnly(marks);
    }

    /// <summary>The format of a language; that of English where there is none.</summary>
    public static ReaderFormat Of(string language) => Each.GetValueOrDefault(language) ?? English;

    /// <summary>The decimal mark.</summary>
    public string DecimalMark => _mark;

    /// <summary>The decimal mark, for whatever formats a number.</summary>
    public IFormatProvider Marks { get; }

    /// <summary>A text with its blanks filled in.</summary>
    public string Fill(string text, params object[] values) => string.Format(Marks, text, values);

    /// <summary>A day.</summary>
    public string Day(DateOnly day) => day.ToString(_day, CultureInfo.InvariantCulture);

    /// <summary>The day of a time, in UTC.</summary>
    public string Day(DateTimeOffset time) => time.UtcDateTime.ToString(_day, CultureInfo.InvariantCulture);

    /// <summary>A time to the minute, in UTC.</summary>
    public string Minute(DateTimeOffset time) => time.UtcDateTime.ToString(_day + " HH:mm 'UTC'", CultureInfo.InvariantCulture);

    /// <summary>The time that a camera wrote, ISO 8601 without a zone; as it is where it is none.</summary>
    public string CameraTime(string iso) =>
        DateTime.TryParseExact(iso, "yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTime time)
            ? time.ToString(_day + " HH:mm:ss", CultureInfo.InvariantCulture)
            : iso;

    /// <summary>A number that stands in a text with a decimal point; what is no single decimal number stays: a version has two points.</summary>
    public string Number(string text) => _mark == "." ? text : Decimal().Replace(text, "$1" + _mark + "$2");

    [GeneratedRegex(@"(?<![0-9.])([0-9]+)\.([0-9]+)(?![0-9]|\.[0-9])")]
    private static partial Regex Decimal();
}
