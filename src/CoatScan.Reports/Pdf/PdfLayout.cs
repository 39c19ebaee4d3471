using System.Globalization;
using PdfSharp.Drawing;

namespace CoatScan.Reports;

/// <summary>Lays blocks out as strips of one width.</summary>
internal sealed class PdfLayout
{
    private const double BetweenColumns = 16;
    private const double BetweenManyColumns = 8;
    private const int ManyColumns = 3;
    private const double SoftGray = 0.32;
    private const double MostLabelShare = 0.3;
    private const double LabelGap = 10;

    private readonly PdfText _text;

    public PdfLayout(XGraphics measure, double scale)
    {
        _text = new(measure);
        BodyPt = 8.4 * scale;
        SmallPt = 7.2 * scale;
        LeadPt = 10.5 * scale;
        Gap = 4 * scale;
        HighestFigure = 190 * scale;
    }

    private double BodyPt { get; }

    private double SmallPt { get; }

    private double LeadPt { get; }

    private double Gap { get; }

    private double HighestFigure { get; }

    /// <summary>The strips of all blocks.</summary>
    public List<Strip> All(IEnumerable<Block> blocks, double width) => [.. blocks.SelectMany(block => Of(block, width))];

    private List<Strip> Of(Block block, double width) => block switch
    {
        Heading heading => Heading(heading, width),
        Paragraph paragraph => Paragraph(paragraph, width),
        ItemList list => List(list, width),
        FactList facts => Facts(facts, width),
        Table table => Table(table, width),
        Figure figure =>
        [
            PdfDrawing.Of(figure.Drawing, width, HighestFigure) with { KeepsWithNext = true },
            Strip.Space(2) with { KeepsWithNext = true },
            .. KeptTogether(_text.Lines([figure.Caption], SmallPt, width, gray: SoftGray)),
            Strip.Space(Gap),
        ],
        Beside beside => Beside(beside, width),
        Frame frame => Frame(frame, width),
        _ => throw new ArgumentOutOfRangeException(nameof(block), block, null),
    };

    private List<Strip> Heading(Heading heading, double width)
    {
        double size = heading.Look switch { 1 => 17, 2 => BodyPt * 1.19, _ => BodyPt * 1.07 };
        var lines = _text.Lines([Text.Bold(heading.Text)], size, width);
        var strips = new List<Strip>();
        if (heading.Look <= 2)
        {
            // A page begins with a rule of its own.
            strips.Add(Strip.Space(heading.Look == 1 ? 12 : 6));
            strips.Add(Rule(width, gray: heading.Look == 1 ? 0.4 : 0.75, thickness: heading.Look == 1 ? 1.2 : 0.4) with { KeepsWithNext = true, IsSpace = true });
        }
        else if (heading.Look > 2)
        {
            strips.Add(Strip.Space(Gap));
        }

        strips.AddRange(lines.Select(line => line with { KeepsWithNext = true }));
        strips.Add(Strip.Space(heading.Look == 1 ? 3 : 1.5) with { KeepsWithNext = true });
        return strips;
    }

    private List<Strip> Paragraph(Paragraph paragraph, double width)
    {
        double size = paragraph.Tone switch { Tone.Lead => LeadPt, Tone.Small => SmallPt, _ => BodyPt };
        List<Strip> strips =
        [
            .. _text.Lines(paragraph.Runs, size, width, gray: paragraph.Tone == Tone.Small ? SoftGray : 0),
            Strip.Space(Gap),
        ];

        // The sentence under a heading belongs to what it leads to.
        return paragraph.Tone == Tone.Lead ? [.. strips.Select(strip => strip with { KeepsWithNext = true })] : strips;
    }

    private List<Strip> List(ItemList list, double width)
    {
        const double Indent = 13;
        var strips = new List<Strip>();
        for (int index = 0; index < list.Items.Count; index++)
        {
            string mark = list.IsNumbered ? string.Create(CultureInfo.InvariantCulture, $"{index + 1}.") : "\u2013";
            var lines = KeptTogether(_text.Lines(list.Items[index], BodyPt, width, Indent));
            Strip label = _text.Lines([mark], BodyPt, width)[0];
            strips.Add(Over(label, lines[0]));
            strips.AddRange(lines.Skip(1));
            strips.Add(Strip.Space(1.5));
        }

        strips.Add(Strip.Space(Gap - 1.5));
        return strips;
    }

    private List<Strip> Facts(FactList facts, double width)
    {
        double widest = facts.Rows.Select(row => _text.Width(row.Label, BodyPt)).DefaultIfEmpty().Max() + LabelGap;
        double labelWidth = Math.Min(widest, width * MostLabelShare);
        var strips = new List<Strip>();
        foreach (var (label, value) in facts.Rows)
        {
            strips.Add(SideBySide(
                [(_text.Lines([label], BodyPt, labelWidth - 6, gray: SoftGray), 0), (_text.Lines([value], BodyPt, width - labelWidth), labelWidth)]));
            strips.Add(Strip.Space(1));
        }

        strips.Add(Strip.Space(Gap));
        return strips;
    }

    private List<Strip> Table(Table table, double width)
    {
        const double Padding = 1.8;
        const double Between = 8;
        double sum = table.Columns.Sum(column => column.Share);
        var widths = table.Columns.Select(column => width * column.Share / sum).ToList();
        Strip Row(IEnumerable<Text> cells, double line)
        {
            double at = 0;
            var laid = new List<(List<Strip>, double)>();
            foreach (var (cell, column) in cells.Zip(widths))
            {
                laid.Add((_text.Lines([cell], BodyPt - 0.4, column - Between), at));
                at += column;
            }

            Strip content = SideBySide(laid);
            return new(content.Height + (2 * Padding), (canvas, x, y) =>
            {
                content.Draw(canvas, x, y + Padding);
                canvas.Graphics.DrawLine(
                    new XPen(PdfText.Ink(line > 0.5 ? 0 : 0.7), line), x, y + content.Height + (2 * Padding), x + width, y + content.Height + (2 * Padding));
            });
        }

        Strip head = Row(table.Columns.Select(column => Text.Bold(column.Head)), 0.8);
        return
        [
            .. _text.Lines([table.Caption], SmallPt, width, gray: SoftGray).Select(line => line with { KeepsWithNext = true }),
            head with { KeepsWithNext = true },
            .. table.Rows.Select(row => Row(row, 0.4) with { Head = head }),
            Strip.Space(Gap + 1),
        ];
    }

    private List<Strip> Beside(Beside beside, double width)
    {
        double between = beside.Columns.Count > ManyColumns ? BetweenManyColumns : BetweenColumns;
        double one = (width - (between * (beside.Columns.Count - 1))) / (beside.Columns.Count + (beside.IsLastWide ? 1 : 0));
        double at = 0;
        var columns = new List<(List<Strip> Strips, double At)>();
        for (int index = 0; index < beside.Columns.Count; index++)
        {
            double column = beside.IsLastWide && index == beside.Columns.Count - 1 ? 2 * one : one;
            columns.Add(([.. All(beside.Columns[index], column).SkipWhile(strip => strip.IsSpace)], at));
            at += column + between;
        }

        return [.. columns.Count == 2 ? InPieces(columns[0], columns[1]) : [SideBySide(columns)], Strip.Space(Gap / 2)];
    }

    // Two columns may go on on the next page where both end a line at about one height and neither keeps with its next.
    private static IEnumerable<Strip> InPieces((List<Strip> Strips, double At) left, (List<Strip> Strips, double At) right)
    {
        const double Slack = 5;
        (int leftFrom, int rightFrom, int leftTo, int rightTo) = (0, 0, 0, 0);
        double down = 0;
        while (leftTo < left.Strips.Count && rightTo < right.Strips.Count)
        {
            // down: how much further the left column reaches since the last cut.
            if (down <= 0)
            {
                down += left.Strips[leftTo++].Height;
            }
            else
            {
                down -= right.Strips[rightTo++].Height;
            }

            bool isFree = leftTo > leftFrom && rightTo > rightFrom
                && !left.Strips[leftTo - 1].KeepsWithNext && !right.Strips[rightTo - 1].KeepsWithNext;
            // The shorter column is filled up: never inside a paragraph, where it would show.
            bool isSeam = down > 0 ? EndsItem(right.Strips, rightTo) : EndsItem(left.Strips, leftTo);
            if (isFree && (Math.Abs(down) < 0.5 || (isSeam && Math.Abs(down) < Slack)))
            {
                yield return Piece();
                (leftFrom, rightFrom, down) = (leftTo, rightTo, 0);
            }
        }

        if (leftFrom < left.Strips.Count && rightFrom < right.Strips.Count)
        {
            (leftTo, rightTo) = (left.Strips.Count, right.Strips.Count);
            yield return Piece();
            yield break;
        }

        // One column alone is left: it breaks wherever it likes.
        foreach (Strip rest in left.Strips.Skip(leftFrom))
        {
            yield return rest with { Draw = (canvas, x, y) => rest.Draw(canvas, x + left.At, y) };
        }

        foreach (Strip rest in right.Strips.Skip(rightFrom))
        {
            yield return rest with { Draw = (canvas, x, y) => rest.Draw(canvas, x + right.At, y) };
        }

        static bool EndsItem(List<Strip> strips, int to) => to == strips.Count || strips[to].IsSpace || (to > 0 && strips[to - 1].IsSpace);

        Strip Piece() => SideBySide([(left.Strips[leftFrom..leftTo], left.At), (right.Strips[rightFrom..rightTo], right.At)]);
    }

    private List<Strip> Frame(Frame frame, double width)
    {
        const double Padding = 7;
        List<Strip> inside =
        [
            .. _text.Lines([Text.Bold(frame.Title)], BodyPt * 1.07, width - (2 * Padding)),
            Strip.Space(2),
            .. All(frame.Blocks, width - (2 * Padding)),
        ];
        Strip content = SideBySide([(inside, Padding)]);
        double height = content.Height + (2 * Padding) - Gap;
        return
        [
            Strip.Space(Gap),
            new(height, (canvas, x, y) =>
            {
                canvas.Graphics.DrawRectangle(new XPen(PdfText.Ink(0), 1.2), x, y, width, height);
                content.Draw(canvas, x, y + Padding);
            }),
            Strip.Space(Gap + 3),
        ];
    }

    private static Strip Rule(double width, double gray, double thickness) => new(4, (canvas, x, y) =>
        canvas.Graphics.DrawLine(new XPen(PdfText.Ink(gray), thickness), x, y, x + width, y));

    private static List<Strip> KeptTogether(List<Strip> strips) =>
        [.. strips.Select((strip, index) => strip with { KeepsWithNext = index < strips.Count - 1 })];

    private static Strip Over(Strip first, Strip second) => second with
    {
        Draw = (canvas, x, y) =>
        {
            first.Draw(canvas, x, y);
            second.Draw(canvas, x, y);
        },
    };

    private static Strip SideBySide(IReadOnlyList<(List<Strip> Strips, double At)> columns) => new(
        columns.Max(column => column.Strips.Sum(strip => strip.Height)),
        (canvas, x, y) =>
        {
            foreach (var (strips, at) in columns)
            {
                double down = y;
                foreach (Strip strip in strips)
                {
                    strip.Draw(canvas, x + at, down);
                    down += strip.Height;
                }
            }
        });
}
