using System.Text;
using CoatScan.Reports;

namespace CoatScan.Cli.Text;

/// <summary>
/// Lays text out as paragraphs beside a column of labels, wrapped at the width of the terminal. Lines and letters only:
/// the page reads the same in a terminal, a file, a mail and aloud.
/// </summary>
internal sealed class TextPage
{
    private const int LabelColumns = 9;

    private readonly StringBuilder _text = new();
    private readonly int _widthColumns;
    private readonly bool _styled;

    /// <summary>An empty page.</summary>
    /// <param name="widthColumns">Columns to wrap at.</param>
    /// <param name="styled">Whether terminal styles may be written.</param>
    /// <param name="words">Words of its language; English where it is null.</param>
    public TextPage(int widthColumns, bool styled, SheetWords? words = null)
    {
        _widthColumns = widthColumns;
        _styled = styled;
        Words = new ReaderWords(words ?? SheetWords.English);
    }

    /// <summary>The language of the page.</summary>
    public ReaderWords Words { get; }

    /// <summary>Adds an unlabeled paragraph over the full width.</summary>
    public void Paragraph(string text, Style style = Style.None) => Write("", "", text, style, Style.None);

    /// <summary>Adds a line that is never wrapped, for the rows of a table.</summary>
    public void Row(string text, Style style = Style.None) =>
        _text.Append(Styled(text.TrimEnd(), style)).Append('\n');

    /// <summary>Adds a rule over the full width.</summary>
    public void Rule(char mark) => Row(new string(mark, _widthColumns), Style.Faint);

    /// <summary>Adds an empty line.</summary>
    public void Gap() => _text.Append('\n');

    /// <summary>Adds a paragraph beside its label; nothing if the text is empty.</summary>
    public void Entry(string label, string text, Style style = Style.None)
    {
        if (text.Length > 0)
        {
            Write(Label(label), new string(' ', LabelColumns), text, style, Style.Strong);
        }
    }

    /// <summary>Adds entries of one kind; the label stands beside the first.</summary>
    public void Entries(string label, IEnumerable<string> texts)
    {
        foreach (var text in texts)
        {
            // Lines after the first of one item go in a little, so that the next item is seen.
            Write(Label(label), new string(' ', LabelColumns + 2), text, Style.None, Style.Strong);
            label = "";
        }
    }

    /// <inheritdoc/>
    public override string ToString() => _text.ToString();

    private string Label(string english) => (english.Length == 0 ? "" : Words.Label(english)).PadRight(LabelColumns);

    private void Write(string first, string later, string text, Style style, Style labelStyle)
    {
        var indent = first;
        foreach (var line in WordWrap.Lines(text, _widthColumns - later.Length))
        {
            _text.Append(indent.Trim().Length > 0 ? Styled(indent, labelStyle) : indent);
            _text.Append(Styled(line, style)).Append('\n');
            indent = later;
        }
    }

    private string Styled(string text, Style style) => (_styled, style) switch
    {
        (true, Style.Strong) => $"\u001b[1m{text}\u001b[0m",
        (true, Style.Faint) => $"\u001b[2m{text}\u001b[0m",
        _ => text,
    };
}
