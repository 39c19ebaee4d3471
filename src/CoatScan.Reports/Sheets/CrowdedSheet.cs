using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>Whether a finding has so much to show that its sheet says less of each part to keep to two pages.</summary>
internal static class CrowdedSheet
{
    private const int ManyPhotos = 4;

    // More than these do not go on two pages with letters that are read with ease (demo photos, three languages).
    private const int MostLetters = 7200;

    /// <summary>Four photos or more, or ratings, whose table says what each was computed from.</summary>
    public static bool Is(Finding finding) => finding.Photos.Count >= ManyPhotos || finding.Ratings.Count > 0;

    /// <summary>Whether what a sheet says is too long.</summary>
    public static bool Is(IEnumerable<Block> blocks) => blocks.Sum(Letters) > MostLetters;

    private static int Letters(Block block) => block switch
    {
        Heading heading => heading.Text.Length,
        Paragraph paragraph => Letters(paragraph.Runs),
        ItemList list => list.Items.Sum(Letters),
        FactList facts => facts.Rows.Sum(row => row.Label.Length + row.Value.Length),
        Table table => table.Caption.Length + table.Rows.Sum(Letters),
        Figure figure => figure.Caption.Length,
        Beside beside => beside.Columns.Sum(column => column.Sum(Letters)),
        Frame frame => frame.Title.Length + frame.Blocks.Sum(Letters),
        _ => 0,
    };

    private static int Letters(IReadOnlyList<Text> runs) => runs.Sum(run => run.Value.Length);
}
