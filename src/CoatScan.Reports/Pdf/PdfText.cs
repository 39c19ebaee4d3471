using PdfSharp.Drawing;

namespace CoatScan.Reports;

/// <summary>Breaks runs into lines of a width and draws them.</summary>
internal sealed class PdfText
{
    private const double LineHeight = 1.32;

    // From the top of a line to its base, as part of the size.
    private const double Ascent = 1.02;

    private readonly XGraphics _measure;

    public PdfText(XGraphics measure) => _measure = measure;

    /// <summary>One strip a line.</summary>
    /// <param name="runs">The words.</param>
    /// <param name="sizePt">Size of the letters, points.</param>
    /// <param name="width">Width to break at, points.</param>
    /// <param name="indent">Space before each line, points.</param>
    /// <param name="gray">Gray of the ink, 0 black.</param>
    public List<Strip> Lines(IEnumerable<Text> runs, double sizePt, double width, double indent = 0, double gray = 0)
    {
        var strips = new List<Strip>();
        foreach (var line in Break(Words(runs, sizePt), width - indent))
        {
            strips.Add(new Strip(sizePt * LineHeight, (canvas, x, y) => Draw(canvas, line, x + indent, y + (sizePt * Ascent), sizePt, gray)));
        }

        return strips;
    }

    /// <summary>Width of a text on one line, points.</summary>
    public double Width(string text, double sizePt) => _measure.MeasureString(CleanText.Of(text), SheetFonts.Of(sizePt, strong: false)).Width;

    private static void Draw(Canvas canvas, List<Word> line, double x, double y, double sizePt, double gray)
    {
        var brush = new XSolidBrush(Ink(gray));
        foreach (Word word in line)
        {
            canvas.Graphics.DrawString(word.Value, SheetFonts.Of(sizePt, word.Strong), brush, x, y);
            if (word.Href.Length > 0)
            {
                canvas.Graphics.DrawLine(new XPen(Ink(gray), 0.4), x, y + 1.2, x + word.Width, y + 1.2);
                canvas.Link(new XRect(x, y - sizePt, word.Width, sizePt * LineHeight), word.Href);
            }

            x += word.Width;
        }
    }

    /// <summary>A gray as the library's color.</summary>
    public static XColor Ink(double gray) => XColor.FromGrayScale(gray);

    private IEnumerable<Word> Words(IEnumerable<Text> runs, double sizePt)
    {
        foreach (Text run in runs)
        {
            XFont font = SheetFonts.Of(sizePt, run.Strong);
            string text = CleanText.Of(run.Value);
            int start = 0;
            while (start < text.Length)
            {
                // A word ends after its spaces, so that text can be put together again from what is drawn.
                int end = start;
                while (end < text.Length && text[end] != ' ')
                {
                    end++;
                }

                while (end < text.Length && text[end] == ' ')
                {
                    end++;
                }

                string word = text[start..end];
                yield return new(word, _measure.MeasureString(word, font).Width, run.Strong, run.Href)
                {
                    BareWidth = _measure.MeasureString(word.TrimEnd(' '), font).Width,
                    Font = font,
                };
                start = end;
            }
        }
    }

    private List<List<Word>> Break(IEnumerable<Word> words, double width)
    {
        var lines = new List<List<Word>>();
        List<Word> line = [];
        double used = 0;
        foreach (Word word in words.SelectMany(word => Pieces(word, width)))
        {
            if (line.Count > 0 && used + word.BareWidth > width)
            {
                lines.Add(line);
                line = [];
                used = 0;
            }

            line.Add(word);
            used += word.Width;
        }

        if (line.Count > 0)
        {
            lines.Add(line);
        }

        return lines;
    }

    // A digest or a path has no spaces: it is cut where the line ends.
    private IEnumerable<Word> Pieces(Word word, double width)
    {
        string rest = word.Value;
        while (rest.Length > 1 && _measure.MeasureString(rest.TrimEnd(' '), word.Font).Width > width)
        {
            int count = rest.Length - 1;
            while (count > 1 && _measure.MeasureString(rest[..count], word.Font).Width > width)
            {
                count--;
            }

            count -= count > 1 && char.IsHighSurrogate(rest[count - 1]) ? 1 : 0;
            string piece = rest[..count];
            double wide = _measure.MeasureString(piece, word.Font).Width;
            yield return word with { Value = piece, Width = wide, BareWidth = wide };
            rest = rest[count..];
        }

        yield return rest.Length == word.Value.Length
            ? word
            : word with
            {
                Value = rest,
                Width = _measure.MeasureString(rest, word.Font).Width,
                BareWidth = _measure.MeasureString(rest.TrimEnd(' '), word.Font).Width,
            };
    }

    private sealed record Word(string Value, double Width, bool Strong, string Href)
    {
        public required double BareWidth { get; init; }

        public required XFont Font { get; init; }
    }
}
