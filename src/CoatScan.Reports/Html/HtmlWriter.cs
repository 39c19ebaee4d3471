using System.Globalization;

namespace CoatScan.Reports;

/// <summary>A sheet as one HTML file that needs no other: style, fonts and pictures are inside, nothing is loaded or run.</summary>
public static class HtmlWriter
{
    private static readonly string Style = OwnResource.Text("Sheet.css");

    // The letters of a PDF get smaller where it needs them to; those of a page cannot, and a finding has to go on two pages in every language.
    private const double PrintedPt = 7.8;

    /// <summary>Writes the page.</summary>
    /// <param name="sheet">What it holds.</param>
    /// <param name="paper">Size of the paper when it is printed.</param>
    public static string Write(Sheet sheet, Paper paper)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        ArgumentNullException.ThrowIfNull(paper);
        var to = new Markup();
        to.Own("<!DOCTYPE html>\n");
        to.Open("html", ("lang", sheet.Language));
        to.Open("head");
        to.Void("meta", ("charset", "utf-8"));
        to.Void("meta", ("name", "viewport"), ("content", "width=device-width, initial-scale=1"));
        to.Void(
            "meta",
            ("http-equiv", "Content-Security-Policy"),
            ("content", "default-src 'none'; img-src data:; font-src data:; style-src 'unsafe-inline'"));
        to.Element("title", sheet.Title);
        to.Open("style");
        to.Own(FontFaces.Css);
        to.Own(Style);
        to.Own(string.Create(CultureInfo.InvariantCulture, $"@page {{ size: {paper.WidthMm}mm {paper.HeightMm}mm; }}\n"));

        to.Own(string.Create(CultureInfo.InvariantCulture, $"@media print {{ html {{ font-size: {PrintedPt * sheet.Scale:0.##}pt; }} }}\n"));
        to.Close("style");
        to.Close("head");
        to.Open("body");
        to.Element("header", sheet.RunningHead);
        to.Open("main");
        WriteAll(to, sheet.Blocks);
        to.Close("main");
        to.Close("body");
        to.Close("html");
        return to.ToString();
    }

    /// <summary>Writes blocks for a page that has a style of its own and allows none inside elements.</summary>
    /// <param name="blocks">What to write.</param>
    public static string Fragment(IEnumerable<Block> blocks)
    {
        ArgumentNullException.ThrowIfNull(blocks);
        var to = new Markup { InlineStyle = false };
        WriteAll(to, blocks);
        return to.ToString();
    }

    /// <summary>Writes one drawing for such a page.</summary>
    /// <param name="drawing">What it shows.</param>
    /// <param name="alternative">The same in words.</param>
    public static string Fragment(Drawing drawing, string alternative)
    {
        ArgumentNullException.ThrowIfNull(drawing);
        ArgumentNullException.ThrowIfNull(alternative);
        var to = new Markup { InlineStyle = false };
        SvgWriter.Write(to, drawing, alternative);
        return to.ToString();
    }

    private static void WriteAll(Markup to, IEnumerable<Block> blocks)
    {
        foreach (Block block in blocks)
        {
            Write(to, block);
        }
    }

    private static void Write(Markup to, Block block)
    {
        switch (block)
        {
            case Heading heading:
                to.Element(string.Create(CultureInfo.InvariantCulture, $"h{heading.Level}"), heading.Text, ("id", heading.Anchor), ("class", Look(heading)));
                break;
            case Paragraph paragraph:
                to.Open("p", ("class", paragraph.Tone switch { Tone.Lead => "lead", Tone.Small => "small", _ => "" }));
                Runs(to, paragraph.Runs);
                to.Close("p");
                break;
            case ItemList list:
                List(to, list);
                break;
            case FactList facts:
                Facts(to, facts);
                break;
            case Table table:
                Table(to, table);
                break;
            case Figure figure:
                to.Open("figure", ("id", figure.Anchor));
                SvgWriter.Write(to, figure.Drawing, figure.Alternative);
                to.Element("figcaption", figure.Caption);
                to.Close("figure");
                break;
            case Beside beside:
                to.Open("div", ("class", beside switch
                {
                    { Columns.Count: > 4 } => "beside six",
                    { Columns.Count: 4 } => "beside four",
                    { Columns.Count: 3, IsLastWide: true } => "beside three-wide",
                    { Columns.Count: 3 } => "beside three",
                    { IsLastWide: true } => "beside wide",
                    _ => "beside",
                }));
                foreach (IReadOnlyList<Block> column in beside.Columns)
                {
                    Column(to, column);
                }

                to.Close("div");
                break;
            case Frame frame:
                to.Open("section", ("class", "frame"), ("aria-label", frame.Title));
                to.Element("h2", frame.Title, ("class", "as-3"));
                WriteAll(to, frame.Blocks);
                to.Close("section");
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(block), block, null);
        }
    }

    private static string Look(Heading heading) =>
        heading.Look == heading.Level ? "" : string.Create(CultureInfo.InvariantCulture, $"as-{heading.Look}");

    private static void Column(Markup to, IReadOnlyList<Block> blocks)
    {
        to.Open("div");
        WriteAll(to, blocks);
        to.Close("div");
    }

    private static void List(Markup to, ItemList list)
    {
        string name = list.IsNumbered ? "ol" : "ul";
        to.Open(name);
        foreach (var item in list.Items)
        {
            to.Open("li");
            Runs(to, item);
            to.Close("li");
        }

        to.Close(name);
    }

    private static void Facts(Markup to, FactList facts)
    {
        to.Open("dl");
        foreach (var (label, value) in facts.Rows)
        {
            to.Element("dt", label);
            to.Element("dd", value);
        }

        to.Close("dl");
    }

    private static void Table(Markup to, Table table)
    {
        to.Open("div", ("class", "scroll"), ("role", "region"), ("aria-label", table.Caption), ("tabindex", "0"));
        to.Open("table");
        to.Element("caption", table.Caption);
        to.Open("thead");
        to.Open("tr");
        foreach (var (head, share) in table.Columns)
        {
            double percent = 100 * share / table.Columns.Sum(column => column.Share);
            string width = string.Create(CultureInfo.InvariantCulture, $"width:{percent:0.#}%");
            to.Element("th", head, ("scope", "col"), ("style", to.InlineStyle ? width : ""));
        }

        to.Close("tr");
        to.Close("thead");
        to.Open("tbody");
        foreach (var row in table.Rows)
        {
            to.Open("tr");
            for (int column = 0; column < row.Count; column++)
            {
                string name = column == 0 ? "th" : "td";
                to.Open(name, ("scope", column == 0 ? "row" : ""), ("data-head", table.Columns[column].Head));
                Runs(to, [row[column]]);
                to.Close(name);
            }

            to.Close("tr");
        }

        to.Close("tbody");
        to.Close("table");
        to.Close("div");
    }

    private static void Runs(Markup to, IEnumerable<Text> runs)
    {
        foreach (Text run in runs.Where(run => run.Value.Length > 0))
        {
            string name = run.Href.Length > 0 ? "a" : run.Strong ? "strong" : "span";
            to.Open(name, ("href", run.Href));
            to.Text(run.Value);
            to.Own($"</{name}>");
        }
    }
}
