namespace CoatScan.Reports;

/// <summary>One part of a sheet, from top to bottom. HTML and PDF are written from the same blocks, so that both say the same.</summary>
public abstract record Block
{
    private protected Block()
    {
    }
}

/// <summary>A heading.</summary>
/// <param name="Level">1 for a sheet's own name, 2 for its parts, 3 below.</param>
/// <param name="Text">The words.</param>
/// <param name="Anchor">Name to lead to; empty for none.</param>
public sealed record Heading(int Level, string Text, string Anchor = "") : Block
{
    /// <summary>Level that it looks like, where that is another one: levels follow each other without gaps for those who hear the sheet.</summary>
    public int Look { get; init; } = Level;
}

/// <summary>A paragraph.</summary>
/// <param name="Tone">How loud it is.</param>
/// <param name="Runs">The words.</param>
public sealed record Paragraph(Tone Tone, params IReadOnlyList<Text> Runs) : Block;

/// <summary>A list.</summary>
/// <param name="IsNumbered">Whether the order counts.</param>
/// <param name="Items">Its items, each of runs.</param>
public sealed record ItemList(bool IsNumbered, IReadOnlyList<IReadOnlyList<Text>> Items) : Block;

/// <summary>Labels with what belongs to each.</summary>
/// <param name="Rows">Label and text.</param>
public sealed record FactList(IReadOnlyList<(string Label, string Value)> Rows) : Block;

/// <summary>A table with column heads.</summary>
/// <param name="Caption">What it holds; read aloud and printed above.</param>
/// <param name="Columns">Head and relative width of each column.</param>
/// <param name="Rows">Cells, as many in each row as there are columns.</param>
public sealed record Table(
    string Caption,
    IReadOnlyList<(string Head, double Share)> Columns,
    IReadOnlyList<IReadOnlyList<Text>> Rows) : Block;

/// <summary>A picture with what is drawn on it.</summary>
/// <param name="Drawing">What it shows.</param>
/// <param name="Alternative">The same in words, for who cannot see it.</param>
/// <param name="Caption">What stands below it.</param>
/// <param name="Anchor">Name to lead to; empty for none.</param>
public sealed record Figure(Drawing Drawing, string Alternative, string Caption, string Anchor = "") : Block;

/// <summary>Columns beside each other on a wide page, below each other on a narrow one.</summary>
/// <param name="Columns">The columns, from the left; two to six.</param>
public sealed record Beside(IReadOnlyList<IReadOnlyList<Block>> Columns) : Block
{
    /// <summary>Two columns of one width.</summary>
    /// <param name="left">The left column, or the first.</param>
    /// <param name="right">The right column, or the second.</param>
    public Beside(IReadOnlyList<Block> left, IReadOnlyList<Block> right)
        : this([left, right])
    {
    }

    /// <summary>Whether the last column is twice as wide as each before it.</summary>
    public bool IsLastWide { get; init; }
}

/// <summary>Something in a frame that must not be overlooked.</summary>
/// <param name="Title">What it is about.</param>
/// <param name="Blocks">What it says.</param>
public sealed record Frame(string Title, IReadOnlyList<Block> Blocks) : Block;
