namespace CoatScan.Reports;

/// <summary>A page to print and take to the car: how to take the photos of one fault.</summary>
public static class PhotoGuide
{
    /// <summary>Puts the page together.</summary>
    public static Sheet Of(SheetWords words)
    {
        ArgumentNullException.ThrowIfNull(words);
        List<Block> blocks =
        [
            new Heading(1, words.GuideTitle),
            new Paragraph(Tone.Lead, words.GuideLead),
            new ItemList(false, [.. words.GuideBefore.Select(one => new Text[] { one })]),
        ];
        foreach (GuidePicture[] pair in Enum.GetValues<GuidePicture>().Chunk(2))
        {
            blocks.Add(new Beside(One(pair[0], words), One(pair[1], words)));
        }

        blocks.Add(new Paragraph(Tone.Small, words.GuideRetakes));
        return new(words.GuideTitle, words.GuideTitle, words.Language, blocks) { Scale = 1.2 };
    }

    private static IReadOnlyList<Block> One(GuidePicture picture, SheetWords words)
    {
        var (name, how, alternative) = words.Guide(picture);
        return
        [
            new Heading(2, $"{(int)picture + 1}. {name}", GuidePictures.Anchor(picture)) { Look = 3 },
            new Figure(GuideDrawings.Of(picture, words), alternative, how),
        ];
    }
}
