using CoatScan.Reports;

namespace CoatScan.Cli.Text;

/// <summary>What a page on the terminal says, in the language of its reader; in English everything stays as it is.</summary>
/// <param name="sheets">The language.</param>
internal sealed class ReaderWords(SheetWords sheets)
{
    private readonly Reports.TradeWords _trade = sheets.Trade;

    /// <summary>English.</summary>
    public static ReaderWords English { get; } = new(SheetWords.English);

    /// <summary>How numbers and days are written.</summary>
    public ReaderFormat Format => sheets.Format;

    /// <summary>A text of the finding or a word of the program; English where it is not known in full.</summary>
    public string Say(string text) => IsEnglish || text.Length == 0 ? text : _trade.Say(text);

    /// <summary>A sentence of the program; what is filled in is in the language already.</summary>
    public string Fill(string english, params object[] values) => _trade.Fill(english, values);

    /// <summary>A complaint of the program or the service; what somebody typed or a library says stays in it as it is.</summary>
    public string Complain(string text) => _trade.Complain(text);

    /// <summary>What is done, in words.</summary>
    public string Operation(string id) => sheets.Operation(id);

    /// <summary>The label of an entry; one that only English pages have stays.</summary>
    public string Label(string english) => IsEnglish || !_trade.Knows(english) ? english : _trade.Fill(english);

    /// <summary>Joins what is in the language already: a, b and c.</summary>
    public string List(IReadOnlyList<string> items) => _trade.List(items);

    /// <summary>Each text in the language, joined: a, b and c.</summary>
    public string SayList(IEnumerable<string> texts) => List([.. texts.Select(Say)]);

    /// <summary>A text as a sentence.</summary>
    public string Sentence(string text) => Phrase.Sentence(Say(text));

    /// <summary>A text without its full stop.</summary>
    public string Bare(string text) => Say(text).TrimEnd('.');

    private bool IsEnglish => ReferenceEquals(sheets, SheetWords.English);
}
