using System.Collections.Concurrent;
using System.Text.RegularExpressions;

namespace CoatScan.Reports;

/// <summary>Says in one language what a finding says in English.</summary>
/// <remarks>
/// A text is looked up whole; else as a pattern whose blanks are looked up; else as parts that a joint holds together. What
/// cannot be said in full stays English: half of a caution is none. Thread-safe.
/// </remarks>
public sealed partial class TradeWords
{
    private const string English = "en";
    private const string German = "de";
    private const string Spanish = "es";

    // Panel names and measured values make texts without end; what is remembered of them is bounded.
    private const int MostRemembered = 8192;

    private static readonly Dictionary<string, TradeWords> Each = new[] { English, German, Spanish }
        .ToDictionary(language => language, language => new TradeWords(language), StringComparer.Ordinal);

    // Between sentences first, then between clauses, then between items: the widest joint is the true one.
    private static readonly string[] Joints = [". ", "? ", "; ", ", ", " and ", " or "];

    private readonly string _language;
    private readonly ReaderFormat _format;
    private readonly Dictionary<string, string> _whole = new(StringComparer.Ordinal);
    private readonly List<TextPattern> _patterns = [];
    private readonly List<TextPattern> _complaints = [];
    private readonly ConcurrentDictionary<string, string?> _remembered = new(StringComparer.Ordinal);

    private TradeWords(string language)
    {
        _language = language;
        _format = ReaderFormat.Of(language);
        if (language == English)
        {
            return;
        }

        foreach (var (english, said) in TradeTexts.All)
        {
            if (english.Contains('{', StringComparison.Ordinal))
            {
                var pattern = new TextPattern(english, said[language]);
                _patterns.Add(pattern);
                if (TradeTexts.Complaints.Contains(english))
                {
                    _complaints.Add(pattern);
                }
            }
            else
            {
                _whole.Add(english, said[language]);
            }
        }

        _patterns.Sort((one, other) => other.Weight.CompareTo(one.Weight));
        _complaints.Sort((one, other) => other.Weight.CompareTo(one.Weight));
    }

    /// <summary>The words of a language; English where there are none.</summary>
    public static TradeWords Of(string language) => Each.GetValueOrDefault(language) ?? Each[English];

    /// <summary>The text in the language; English where it is not known in full.</summary>
    public string Say(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return _language == English ? Micrometers().Replace(text, " µm") : Known(text) ?? Micrometers().Replace(text, " µm");
    }

    /// <summary>
    /// A complaint of the program or of the service in the language. What a person typed or a library says stands in it as it is: unlike a caution, a
    /// complaint is of use in parts.
    /// </summary>
    public string Complain(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return _language == English || text.Length == 0 ? text : Known(text) ?? Complaint(text) ?? text;
    }

    /// <summary>How numbers and days are written.</summary>
    public ReaderFormat Format => _format;

    /// <summary>A sentence of the program with its blanks filled in, English where the language has no text for it; what is filled in is in the language already.</summary>
    /// <param name="english">The sentence in English, which is its key.</param>
    /// <param name="values">What stands in the blanks.</param>
    public string Fill(string english, params object[] values)
    {
        ArgumentNullException.ThrowIfNull(english);
        string sentence = _language == English
            ? english
            : TradeTexts.All.GetValueOrDefault(english)?.GetValueOrDefault(_language) ?? english;
        return values.Length == 0 ? sentence : _format.Fill(sentence, values);
    }

    /// <summary>Joins what is in the language already: a, b and c.</summary>
    public string List(IReadOnlyList<string> items)
    {
        ArgumentNullException.ThrowIfNull(items);
        return items.Count < 2
            ? string.Concat(items)
            : string.Join(", ", items.Take(items.Count - 1)) + Joint(" and ", items[^1]) + items[^1];
    }

    /// <summary>Whether a text can be said in the language.</summary>
    public bool Knows(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return _language == English || Known(text) is not null;
    }

    private string? Known(string text)
    {
        if (text.Trim().Length == 0)
        {
            return text;
        }

        if (Figures().IsMatch(text))
        {
            return _format.Number(text);
        }

        if (_remembered.TryGetValue(text, out string? known))
        {
            return known;
        }

        string? said = Whole(text) ?? Joined(text);
        if (_remembered.Count >= MostRemembered)
        {
            _remembered.Clear();
        }

        _remembered[text] = said;
        return said;
    }

    private string? Whole(string text) => Exact(text) ?? Pattern(text);

    private string? Exact(string text) =>
        _whole.GetValueOrDefault(text)
        ?? (_whole.GetValueOrDefault(char.ToUpperInvariant(text[0]) + text[1..]) is { } name ? Small(name) : null)
        ?? (_whole.GetValueOrDefault(char.ToLowerInvariant(text[0]) + text[1..]) is { } phrase ? Phrases.Capital(phrase) : null)
        ?? (text[^1] == '.' && text.Length > 1 && Exact(text[..^1]) is { } sentence ? sentence + "." : null);

    private string? Pattern(string text)
    {
        foreach (TextPattern pattern in _patterns)
        {
            if (pattern.Say(text, Known) is { } said)
            {
                return char.IsUpper(text[0]) ? Phrases.Capital(said) : said;
            }
        }

        return null;
    }

    private string? Complaint(string text)
    {
        foreach (TextPattern pattern in _complaints)
        {
            if (pattern.Say(text, Part) is { } said)
            {
                return char.IsUpper(text[0]) ? Phrases.Capital(said) : said;
            }
        }

        return null;
    }

    // Words of the command line stand in a complaint, too: only what is a complaint itself is said in the language.
    private string Part(string text) =>
        Figures().IsMatch(text) ? _format.Number(text)
        : TradeTexts.Complaints.Contains(text) ? TradeTexts.All[text][_language]
        : Complaint(text) ?? text;

    private string? Joined(string text)
    {
        foreach (string joint in Joints)
        {
            // The longest first part: a text may hold a joint itself.
            for (int at = text.LastIndexOf(joint, StringComparison.Ordinal); at > 0; at = text.LastIndexOf(joint, at - 1, StringComparison.Ordinal))
            {
                // The full stop or question mark belongs to its sentence.
                int end = joint[0] is '.' or '?' ? at + 1 : at;
                if (Whole(text[..end]) is { } first && Known(text[(at + joint.Length)..]) is { } rest)
                {
                    return first + Joint(joint, rest) + rest;
                }
            }
        }

        return null;
    }

    private string Joint(string english, string rest) => (english, _language) switch
    {
        (". " or "? ", _) => " ",
        (" and ", German) => " und ",
        (" or ", German) => " oder ",
        // Spanish changes the word before the same sound.
        (" and ", Spanish) => rest.StartsWith('i') || rest.StartsWith('I') || rest.StartsWith("hi", StringComparison.OrdinalIgnoreCase) ? " e " : " y ",
        (" or ", Spanish) => rest.StartsWith('o') || rest.StartsWith('O') || rest.StartsWith("ho", StringComparison.OrdinalIgnoreCase) ? " u " : " o ",
        _ => english,
    };

    // German nouns keep their capital inside a sentence.
    private string Small(string name) => _language == German ? name : char.ToLowerInvariant(name[0]) + name[1..];

    // Numbers and the designations of standards are the same in every language, but for the decimal mark.
    [GeneratedRegex(@"^(Ri |S)?-?[0-9][0-9.,]*(\([0-9S]+\))?( ?%)?(-[GPS])?$")]
    private static partial Regex Figures();

    [GeneratedRegex("(?<=[0-9]) um\\b")]
    private static partial Regex Micrometers();
}
