using System.Text;

namespace CoatScan.Reports;

/// <summary>Writes elements; all text and every attribute goes through here and is escaped here, and nowhere else.</summary>
/// <remarks>The result is well-formed XML as well, so that a strict reader can check it.</remarks>
internal sealed class Markup
{
    private readonly StringBuilder _to = new();

    /// <summary>Whether elements may carry their style; a page that forbids it does without.</summary>
    public bool InlineStyle { get; init; } = true;

    public void Open(string name, params IEnumerable<(string Name, string Value)> attributes)
    {
        _to.Append('<').Append(name);
        Attributes(attributes);
        _to.Append('>');
    }

    public void Close(string name) => _to.Append("</").Append(name).Append(">\n");

    public void Void(string name, params IEnumerable<(string Name, string Value)> attributes)
    {
        _to.Append('<').Append(name);
        Attributes(attributes);
        _to.Append(" />\n");
    }

    public void Element(string name, string text, params IEnumerable<(string Name, string Value)> attributes)
    {
        Open(name, attributes);
        Text(text);
        Close(name);
    }

    public void Text(string text) => Escape(text);

    /// <summary>Writes what is no text of anybody: the document type and our own style sheet.</summary>
    public void Own(string markup) => _to.Append(markup);

    public override string ToString() => _to.ToString();

    private void Attributes(IEnumerable<(string Name, string Value)> attributes)
    {
        foreach (var (name, value) in attributes)
        {
            if (value.Length > 0)
            {
                _to.Append(' ').Append(name).Append("=\"");
                Escape(value);
                _to.Append('"');
            }
        }
    }

    private void Escape(string text)
    {
        foreach (char letter in CleanText.Of(text))
        {
            _ = letter switch
            {
                '&' => _to.Append("&amp;"),
                '<' => _to.Append("&lt;"),
                '>' => _to.Append("&gt;"),
                '"' => _to.Append("&quot;"),
                '\'' => _to.Append("&#39;"),
                _ => _to.Append(letter),
            };
        }
    }
}
