using System.Globalization;
using System.Reflection;
using System.Xml.Linq;
using CoatScan.Findings;

namespace CoatScan.ReportsTests;

public sealed class SheetTests
{
    private static readonly SheetWords Words = SheetWords.English;

    public static TheoryData<string> Languages => [.. SheetWords.All.Select(words => words.Language)];

    [Theory]
    [MemberData(nameof(Languages))]
    public void Words_every_text_is_there(string language)
    {
        var words = SheetWords.Of(language);
        var texts = typeof(SheetWords).GetProperties(BindingFlags.Instance | BindingFlags.NonPublic)
            .Where(property => property.PropertyType == typeof(string))
            .ToList();

        Assert.InRange(texts.Count, 100, 300);
        Assert.All(texts, property => Assert.NotEqual("", property.GetValue(words)));
        Assert.All(Enum.GetValues<Verdict>(), verdict => Assert.NotEqual("", words.VerdictShort(verdict) + words.PartyVerdict(verdict)));
        Assert.All(Enum.GetValues<TimingClass>(), timing => Assert.NotEqual("", words.TimingClass(timing)));
        Assert.All(Enum.GetValues<RemedyClass>(), one => Assert.NotEqual("", words.RemedyRange((one, one))));
        Assert.All(Enum.GetValues<GuidePicture>(), picture => Assert.NotEqual("", words.Guide(picture).Alternative));
        Assert.All(Enum.GetValues<PhotoIssueCode>(), code => Assert.NotEqual("", words.PhotoIssue(code)));
        Assert.Equal(3, words.GuideBefore.Count);
    }

    [Fact]
    public void Order_puts_faults_first_then_open_questions_and_sound_last()
    {
        Verdict[] verdicts = [Verdict.Sound, Verdict.NotAssessable, Verdict.Inconclusive, Verdict.Provisional];
        var seen = Samples.Bare() with { Verdict = Verdict.Provisional, Conditions = [new ConditionShare("sound", 0.4, [])] };

        var ordered = verdicts.Select(verdict => Samples.Bare() with { Verdict = verdict }).Append(seen).OrderBy(OverviewOrder.Of).ToList();

        Assert.Equal(
            [Verdict.Provisional, Verdict.Inconclusive, Verdict.NotAssessable, Verdict.Provisional, Verdict.Sound],
            ordered.Select(one => one.Verdict));
        Assert.Same(seen, ordered[3]);
    }

    [Fact]
    public void Order_within_faults_goes_by_rating_then_area()
    {
        Finding Fault(string rating, double area) => Samples.Full() with
        {
            Ratings = [new Rating("ISO 4628-2", rating, "")],
            VisualClasses = [new VisualClassShare { VisualClass = "domes", Probability = 1, AreaFraction = area }],
        };

        Assert.True(OverviewOrder.Of(Fault("4(S2)", 0.1)) < OverviewOrder.Of(Fault("2(S5)", 0.9)));
        Assert.True(OverviewOrder.Of(Fault("2(S2)", 0.2)) < OverviewOrder.Of(Fault("2(S5)", 0.1)));
    }

    [Fact]
    public void Order_goes_by_rated_amount_and_a_size_alone_is_no_amount()
    {
        static OverviewOrder Rated(string standard, string designation) =>
            OverviewOrder.Of(Samples.Bare() with { Ratings = [new Rating(standard, designation, "")] });

        Assert.Equal(3, Rated("ISO 4628-3", "Ri 3(S4) (Ri 2 to Ri 3 within the uncertainty)").Rating);
        Assert.Equal(-1, Rated("ISO 4628-2", "S4").Rating);
        Assert.Equal(-1, Rated("ASTM D610", "4-S").Rating);
    }

    [Fact]
    public void Vehicle_sheet_has_an_overview_worst_first_and_then_each_sheet()
    {
        var bad = new FindingSubject("bad.jpg", Samples.Full() with { Panel = "roof" }, []);
        var sound = new FindingSubject("fine.jpg", Samples.Bare() with { Panel = "hood", Verdict = Verdict.Sound }, []);

        var sheet = VehicleSheet.Of("AB 123", [sound, bad], [new("lost.jpg", null, "no such file")], Words);

        var table = sheet.Blocks.OfType<Table>().First();
        Assert.Equal(["roof (door.jpg and 1 more)", "lost.jpg", "hood (fine.jpg)"], table.Rows.Select(row => row[1].Value));
        Assert.Equal("wash or dissolve to paint the panel", table.Rows[0][5].Value);
        Assert.Equal("0.5 to 10", table.Rows[0][6].Value);
        Assert.Equal("Not sharp", table.Rows[0][7].Value);
        Assert.Equal(["Vehicle AB 123", "Roof: Blistering", "Hood: No paint fault found"], sheet.Blocks.OfType<Heading>().Where(one => one.Level == 1).Select(one => one.Text));
        Assert.Equal(["", "panel-1", "panel-2"], sheet.Blocks.OfType<Heading>().Where(one => one.Level == 1).Select(one => one.Anchor));
        Assert.Equal("#panel-1", table.Rows[0][1].Href);
    }

    [Fact]
    public void Vehicle_sheet_says_once_what_holds_for_every_panel()
    {
        var one = Samples.Full() with { Panel = "roof", Cautions = ["Wear gloves.", "Work wet."] };
        var other = Samples.Full() with { Panel = "hood", Cautions = ["Work wet.", "Mind the airbag."], Measurements = [.. Samples.Full().Measurements.Skip(1)] };

        var sheet = VehicleSheet.Of("AB 123", [new("a.jpg", one, []), new("b.jpg", other, [])], [], Words);

        var text = XDocument.Parse(HtmlWriter.Write(sheet, Paper.A4).Replace("<!DOCTYPE html>", "", StringComparison.Ordinal)).Root!.Value;
        string[] once =
        [
            "Wear gloves.", "Work wet.", "Mind the airbag.", "Equal photos, equal answers",
            "opens the skin.", "A licensed shop", "Lay the card down.", "No highlight of a lamp", "One dome, hidden.", "Water or air inside.", "aa11bb22",
        ];
        Assert.All(once, said => Assert.Equal(2, text.Split(said).Length));
    }

    [Fact]
    public void Finding_of_several_photos_says_once_what_limits_them_all()
    {
        var issue = new PhotoIssue(PhotoIssueCode.NoScale, "no card was found", "lay the card down", "nothing is said in millimeters");
        var photos = Enumerable.Range(0, 4).Select(at => new PhotoReport
        {
            Sha256 = new string((char)('a' + at), 64),
            WidthPx = 400,
            HeightPx = 300,
            Issues = at == 2 ? [] : [issue],
        });
        var subject = new FindingSubject("four", Samples.Full() with { Photos = [.. photos] }, []);

        var items = FindingSheet.Of(subject, Words).Blocks.SelectMany(Inside).OfType<ItemList>().SelectMany(list => list.Items)
            .Select(item => string.Concat(item.Select(run => run.Value))).ToList();

        Assert.Contains("No scale (photos 1, 2, 4). No card was found. Nothing is said in millimeters. Lay the card down. ", items);

        static IEnumerable<Block> Inside(Block block) =>
            block is Beside beside ? beside.Columns.SelectMany(column => column).SelectMany(Inside) : [block];
    }

    [Fact]
    public void Figure_shows_scale_card_and_reflected_edges_as_layers_of_their_own()
    {
        var photo = Samples.Full().Photos[0] with
        {
            Outlines =
            [
                new PhotoOutline(OutlineKind.ScaleCard, [new(10, 10), new(90, 10), new(90, 70), new(10, 70)]),
                new PhotoOutline(OutlineKind.ReflectedEdge, [new(5, 200), new(395, 210)]),
                new PhotoOutline(OutlineKind.ReflectedEdge, [new(5, 250), new(395, 260)]),
            ],
        };
        var subject = new FindingSubject("door.jpg", Samples.Full() with { Photos = [photo] }, [Samples.Photo]);

        var figure = Assert.Single(new FindingParts(subject, Words, "").Figures);

        Assert.Equal(["domes", "scale card", "reflected edge", "scale bar"], figure.Drawing.Layers);
        Assert.Contains("The dashed frame is the scale card. Waviness was read along the dashed line.", figure.Caption, StringComparison.Ordinal);
        var dashed = figure.Drawing.Shapes.OfType<Stroke>().Where(one => one.Dash > 0).ToList();
        Assert.Equal([1, 2, 2], dashed.Select(one => one.Layer));
        Assert.Equal([true, false, false], dashed.Select(one => one.IsClosed));
        Assert.Equal((395, 210), dashed[1].Points[^1]);
    }

    [Theory]
    [InlineData(0, "Counted spots, circled: 2.")]
    [InlineData(7, "Counted spots: 9; the 2 largest are circled.")]
    public void Figure_of_a_finding_that_speaks_of_spots_circles_them_as_a_layer_of_its_own(int leftOut, string caption)
    {
        var photo = Samples.Full().Photos[0] with
        {
            Spots = [new SpotMark(100, 60, 20), new SpotMark(300, 200, 4)],
            SpotsLeftOut = leftOut,
        };
        var full = Samples.Full();
        var finding = full with
        {
            Photos = [photo],
            Measurements = [.. full.Measurements.Where(one => one.Metric != "spot_count"), Measurement.Of("spot_count", 2 + leftOut, "1", 0)],
        };

        var figure = Assert.Single(new FindingParts(new FindingSubject("door.jpg", finding, [Samples.Photo]), Words, "").Figures);

        Assert.Contains(caption, figure.Caption, StringComparison.Ordinal);
        int layer = figure.Drawing.Layers.ToList().IndexOf("counted spots");
        Assert.True(layer >= 0);
        var rounds = figure.Drawing.Shapes.OfType<Circles>().ToList();
        Assert.Equal(2, rounds.Count);
        Assert.All(rounds, one => Assert.Equal(layer, one.Layer));
        Assert.All(rounds, one => Assert.Equal([(100, 60), (300, 200)], one.Centers.Select(center => (center.X, center.Y))));
        Assert.All(rounds[0].Centers.Zip(photo.Spots), pair => Assert.True(pair.First.Radius > pair.Second.DiameterPx / 2));
    }

    // A page of many photos stays light: circles are one path each for the dark and the light line.
    [Fact]
    public void Figure_of_500_spots_weighs_under_60_kilobytes_without_its_photo()
    {
        var full = Samples.Full();
        var random = new Random(5);
        var finding = full with
        {
            Photos = [full.Photos[0] with { Spots = [.. Enumerable.Range(0, 500).Select(_ => new SpotMark(random.Next(4000), random.Next(3000), random.Next(4, 90)))] }],
            Measurements = [Measurement.Of("spot_count", 500, "1", 0)],
        };
        var figure = Assert.Single(new FindingParts(new FindingSubject("door.jpg", finding, [Samples.Photo]), Words, "").Figures);
        Sheet Of(IReadOnlyList<Shape> shapes) => new("t", "t", "en", [figure with { Drawing = figure.Drawing with { Shapes = shapes } }]);

        int with = HtmlWriter.Write(Of(figure.Drawing.Shapes), Paper.A4).Length;
        int without = HtmlWriter.Write(Of([.. figure.Drawing.Shapes.Where(one => one is not Circles)]), Paper.A4).Length;

        Assert.InRange(with - without, 10_000, 60_000);
    }

    [Theory]
    [InlineData(3, "en")]
    [InlineData(4, "en")]
    [InlineData(6, "de")]
    [InlineData(8, "en")]
    [InlineData(8, "es")]
    [InlineData(9, "de")]
    [InlineData(12, "en")]
    [InlineData(12, "de")]
    [InlineData(12, "es")]
    public void Finding_sheet_of_many_photos_has_two_pages_at_most(int count, string language)
    {
        var photo = Samples.Photo;
        var subject = new FindingSubject(
            "many",
            Samples.Full() with
            {
                Photos = [.. Enumerable.Range(0, count).Select(at => Samples.Full().Photos[0] with { DisplayName = $"photo-{at}.jpg" })],
            },
            [photo]);

        using var document = UglyToad.PdfPig.PdfDocument.Open(PdfWriter.Write(FindingSheet.Of(subject, SheetWords.Of(language)), Paper.A4, DateTimeOffset.UnixEpoch));

        Assert.InRange(document.NumberOfPages, 1, 2);
        Assert.Equal(count, document.GetPages().Sum(page => page.GetImages().Count()));
        string text = string.Concat(document.GetPages().SelectMany(page => page.Letters).Select(letter => letter.Value));
        Assert.Equal(count, text.Split(photo.Sha256).Length - 1);
    }

    [Fact]
    public void Customer_note_has_the_text_in_its_parts_and_the_care_card()
    {
        var blocks = CustomerNote.Of(Samples.FullSubject(), Words).Blocks;

        Assert.Equal(
            ["What we see: Blistering.", "What it means: Water sits under the paint.", "How sure: Not certain yet."],
            blocks.OfType<Paragraph>().Where(one => one.Tone == Tone.Plain).Select(one => string.Concat(one.Runs.Select(run => run.Value))));
        var card = Assert.Single(blocks.OfType<Frame>());
        Assert.Equal(["Dry after washing.", "Wax twice a year."], ((ItemList)card.Blocks[0]).Items.Select(item => item[0].Value));
        Assert.Empty(CustomerNote.Of(Samples.BareSubject(), Words).Blocks.OfType<Frame>());
    }

    [Fact]
    public void Job_card_has_a_line_a_step_with_its_hold_and_room_to_sign()
    {
        var table = Assert.Single(JobCard.Of(Samples.FullSubject(), Words).Blocks.OfType<Table>());

        Assert.Equal(["No.", "Step", "Stop, or go on, when", "Hold", "Hours", "Materials and film", "Done (name, time)"], table.Columns.Select(column => column.Head));
        Assert.Equal("1 to 7 days. Not before 2026-05-20. Better from 2026-06-01.", table.Rows[0][3].Value);
        Assert.Equal("Refinish the panel.", table.Rows[1][1].Value);
        Assert.Equal("", table.Rows[1][3].Value);
        Assert.Empty(JobCard.Of(Samples.BareSubject(), Words).Blocks.OfType<Table>());
    }

    [Fact]
    public void Guide_has_a_picture_for_every_issue_and_the_finding_leads_there()
    {
        var guide = XDocument.Parse(HtmlWriter.Write(PhotoGuide.Of(Words), Paper.A4));
        var ids = guide.Descendants().Select(one => (string?)one.Attribute("id")).Where(one => one is not null).ToList();
        var finding = Samples.Full() with
        {
            Photos = [Samples.Full().Photos[0] with { Issues = [.. Enum.GetValues<PhotoIssueCode>().Select(code => new PhotoIssue(code, "d", "h", "l"))] }],
        };
        var sheet = XDocument.Parse(HtmlWriter.Write(FindingSheet.Of(new("a", finding, []), Words, "photo-guide.html"), Paper.A4));

        var links = sheet.Descendants("a").Select(one => (string)one.Attribute("href")!).ToList();
        Assert.Equal(Enum.GetValues<PhotoIssueCode>().Length, links.Count);
        Assert.All(links, link => Assert.Contains(link["photo-guide.html#".Length..], ids));
        Assert.Equal(6, guide.Descendants("figure").Count());
    }

    [Theory]
    [InlineData(12.3456, 0.31, "12.35")]
    [InlineData(12.3456, 3.1, "12.3")]
    [InlineData(1234.5, 120.0, "1234")]
    [InlineData(183, null, "183")]
    [InlineData(0.002975, null, "0.00298")]
    [InlineData(-0.0000001, 0.5, "0.00")]
    public void Measured_value_has_the_places_that_its_uncertainty_supports(double value, double? uncertainty, string text) =>
        Assert.Equal(text, Shares.Measured(value, uncertainty, CultureInfo.InvariantCulture));
}
