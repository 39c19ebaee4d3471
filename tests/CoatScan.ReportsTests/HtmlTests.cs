using System.Text.RegularExpressions;
using System.Xml.Linq;
using CoatScan.Findings;
using CsCheck;

namespace CoatScan.ReportsTests;

public sealed partial class HtmlTests
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    // A sheet is read where no network is, and tells nobody that it is read.
    [Theory]
    [InlineData("en")]
    [InlineData("de")]
    [InlineData("es")]
    public void No_sheet_loads_anything_from_elsewhere(string language)
    {
        var words = SheetWords.Of(language);
        var subject = Samples.FullSubject();
        Sheet[] sheets =
        [
            FindingSheet.Of(subject, words, "photo-guide.html"), CustomerNote.Of(subject, words), JobCard.Of(subject, words), PhotoGuide.Of(words),
            VehicleSheet.Of("AB 1", [subject], [], words), Overview.Of([new OverviewEntry("a.jpg", subject.Finding)], words, []),
            Overview.OfVehicles([new OverviewVehicle("AB 1", "vehicles/AB%201.html", [new OverviewEntry("a.jpg", subject.Finding)])], words, []),
        ];
        foreach (var sheet in sheets)
        {
            var html = HtmlWriter.Write(sheet, Paper.A4);
            Assert.Empty(Elsewhere().Matches(html).Select(one => one.Value));
            Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("<link", html, StringComparison.OrdinalIgnoreCase);
        }
    }

    [Fact]
    public void Write_full_finding_shows_every_part()
    {
        var text = TextOf(Page(FindingSheet.Of(Samples.FullSubject(), SheetWords.English, "photo-guide.html")));

        Assert.All(Samples.EveryPart, part => Assert.Contains(part, text, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Write_bare_finding_shows_nothing_in_place_of_what_is_absent()
    {
        var page = Page(FindingSheet.Of(Samples.BareSubject(), SheetWords.English));
        var text = TextOf(page);

        Assert.Contains("Chalking", text, StringComparison.Ordinal);
        Assert.Contains("not stored", text, StringComparison.Ordinal);
        string[] absent =
        [
            "What to do", "Do not do", "Safety", "Hand over", "What was measured", "test next", "who answers", "Look-alikes", "does not fit together",
            "Panel", "Reference", "SHA-256 \n", "1970", "NaN", "null",
        ];
        Assert.All(absent, part => Assert.DoesNotContain(part, text, StringComparison.Ordinal));
        Assert.Empty(page.Descendants("table"));
        Assert.Empty(page.Descendants(Svg + "svg"));
    }

    [Theory]
    [InlineData("en", "checked on 15 real photos, 40 % of them found", "rust beside it, 70 % sure", "checked on rendered images only", "The photos cannot exclude: domes, rust (holds for 90 %")]
    [InlineData("de", "an 15 echten Fotos", "daneben", "nur an gerechneten Bildern", "Die Fotos schließen nicht aus")]
    [InlineData("es", "comprobado con 15 fotos reales", "además", "comprobado solo con imágenes generadas", "Las fotos no permiten descartar")]
    public void Write_says_how_each_class_was_checked_what_is_beside_it_and_what_cannot_be_excluded(string language, params string[] parts)
    {
        var full = Samples.Full();
        var finding = full with
        {
            SetCoverage = 0.9,
            VisualClasses =
            [
                full.VisualClasses[0] with
                {
                    Possible = true,
                    Check = new ClassCheck { Basis = ClassCheckBasis.RealPhotos, Photos = 15, Recall = 0.4 },
                },
                new VisualClassShare
                {
                    VisualClass = "rust", Probability = 0.03, Possible = true, BesideProbability = 0.7, AreaFraction = 0.05,
                    Regions = [new Region(0, 10, 10, 60, 60)],
                    Check = new ClassCheck { Basis = ClassCheckBasis.RenderedOnly, Photos = 16, Recall = 0.8 },
                },
            ],
        };

        var text = TextOf(Page(FindingSheet.Of(new FindingSubject("a.jpg", finding, [Samples.Photo]), SheetWords.Of(language))));

        Assert.All(parts, part => Assert.Contains(part, text, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Write_measurement_without_a_value_is_listed_with_its_reason_and_in_no_table()
    {
        var page = Page(FindingSheet.Of(Samples.FullSubject(), SheetWords.English));

        Assert.DoesNotContain(page.Descendants("td").Concat(page.Descendants("th")), cell => cell.Value.Contains("gloss loss", StringComparison.OrdinalIgnoreCase));
        Assert.Contains(page.Descendants("li"), item => item.Value.Contains("No highlight of a lamp: gloss loss index", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("<script>alert(1)</script>")]
    [InlineData("\"><img src=x onerror=alert(1)>")]
    [InlineData("a & b ' c")]
    public void Write_text_of_others_stays_text(string hostile)
    {
        var finding = Samples.Full() with
        {
            Panel = hostile,
            ExternalRef = hostile,
            CustomerText = hostile,
            Evidence = [new EvidenceItem("test.touch.wet", EvidenceOrigin.Caller, hostile) { SaidBy = [hostile] }],
            Photos = [Samples.Full().Photos[0] with { DisplayName = hostile }],
        };
        var subject = new FindingSubject(hostile, finding, [Samples.Photo]);
        Sheet[] sheets =
        [
            FindingSheet.Of(subject, SheetWords.English, "guide.html"), CustomerNote.Of(subject, SheetWords.English), JobCard.Of(subject, SheetWords.English),
            VehicleSheet.Of(hostile, [subject], [new(hostile, null, hostile)], SheetWords.English),
            Overview.Of([new(hostile, finding, Href: "a.html")], SheetWords.English, []),
        ];

        foreach (var sheet in sheets)
        {
            var html = HtmlWriter.Write(sheet, Paper.A4);
            Assert.DoesNotContain("<script", html, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("<img", html, StringComparison.OrdinalIgnoreCase);
            Assert.Contains(hostile, TextOf(XDocument.Parse(html)), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Write_any_text_is_well_formed() => Gen.String.Sample(text =>
    {
        var subject = new FindingSubject(text, Samples.Bare() with { Panel = text, ExternalRef = text }, []);
        Page(FindingSheet.Of(subject, SheetWords.English));
    });

    [Fact]
    public void Write_needs_no_other_file_and_runs_nothing()
    {
        var page = Page(FindingSheet.Of(Samples.FullSubject(), SheetWords.English, "photo-guide.html"));

        Assert.Contains("default-src 'none'", page.Descendants("meta").Select(one => (string?)one.Attribute("content")).Single(one => one?.Contains("src", StringComparison.Ordinal) == true));
        Assert.DoesNotContain(page.Descendants(), one => one.Name.LocalName is "script" or "link" or "iframe" or "object");
        Assert.All(
            page.Descendants(Svg + "image"),
            image => Assert.StartsWith("data:image/jpeg;base64,", (string?)image.Attribute("href"), StringComparison.Ordinal));
        Assert.Single(page.Descendants(Svg + "image"));
    }

    [Fact]
    public void Write_can_be_read_aloud_and_by_keyboard()
    {
        var page = Page(FindingSheet.Of(Samples.FullSubject(), SheetWords.English, "photo-guide.html"));

        Assert.Equal("en", (string?)page.Root!.Attribute("lang"));
        Assert.Single(page.Descendants("h1"));
        Assert.All(page.Descendants(Svg + "svg"), svg => Assert.Contains("domes", (string?)svg.Attribute("aria-label"), StringComparison.Ordinal));
        Assert.All(page.Descendants("table"), table =>
        {
            Assert.NotEqual("", table.Element("caption")!.Value);
            Assert.All(table.Element("thead")!.Descendants("th"), head => Assert.Equal("col", (string?)head.Attribute("scope")));
            Assert.All(table.Element("tbody")!.Elements("tr"), row => Assert.Equal("row", (string?)row.Element("th")!.Attribute("scope")));
        });
        Assert.All(
            page.Descendants().Where(one => (string?)one.Attribute("class") == "scroll"),
            region => Assert.Equal("0", (string?)region.Attribute("tabindex")));

        // No level is left out on the way down.
        var levels = page.Descendants().Where(one => one.Name.LocalName is ['h', >= '1' and <= '6']).Select(one => one.Name.LocalName[1] - '0').ToList();
        Assert.All(levels.Zip(levels.Skip(1)), pair => Assert.True(pair.Second <= pair.First + 1 || pair == (1, 3), $"{pair}"));
    }

    [Fact]
    public void Write_photos_have_numbers_outlines_and_a_scale_bar_only_with_a_scale()
    {
        var scaled = Page(FindingSheet.Of(Samples.FullSubject(), SheetWords.English));
        var finding = Samples.Full();
        var unscaled = Page(FindingSheet.Of(
            new("a", finding with { Photos = [finding.Photos[0] with { Scale = PhotoScale.Unknown }] }, [Samples.Photo]), SheetWords.English));

        Assert.Equal(["1", "2", "50 mm"], Letters(scaled));
        Assert.Equal(["1", "2"], Letters(unscaled));
        Assert.DoesNotContain("The bar is", TextOf(unscaled), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.5, 400, "50 mm")]
    [InlineData(0.01, 1000, "2 mm")]
    [InlineData(0.1, 1000, "20 mm")]
    [InlineData(0.2, 1000, "50 mm")]
    [InlineData(2, 1000, "500 mm")]
    public void Scale_bar_is_the_longest_round_length_in_three_tenths_of_the_width(double mmPerPx, int widthPx, string label)
    {
        var bar = ScaleBar.Of(mmPerPx, widthPx, widthPx, 20, SheetWords.English);

        Assert.Equal(label, bar.Label);
        var corners = bar.Shapes.OfType<Stroke>().Last().Points;
        Assert.Equal(double.Parse(label.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture), (corners[1].X - corners[0].X) * mmPerPx, 6);
    }

    [Fact]
    public void Write_picture_of_another_photo_is_not_shown()
    {
        var finding = Samples.Full();
        var other = new FindingSubject("a", finding with { Photos = [finding.Photos[0] with { Sha256 = new string('0', 64) }] }, [Samples.Photo]);

        Assert.Empty(Page(FindingSheet.Of(other, SheetWords.English)).Descendants(Svg + "svg"));
    }

    [Fact]
    public void Write_paper_goes_into_the_print_style() =>
        Assert.Contains("size: 215.9mm 279.4mm", HtmlWriter.Write(PhotoGuide.Of(SheetWords.English), Paper.Letter), StringComparison.Ordinal);

    private static IEnumerable<string> Letters(XDocument page) => page.Descendants(Svg + "text").Select(one => one.Value);

    private static XDocument Page(Sheet sheet) => XDocument.Parse(HtmlWriter.Write(sheet, Paper.A4));

    private static string TextOf(XDocument page) => string.Join("\n", page.Descendants("body").Single().DescendantNodes().OfType<XText>().Select(one => one.Value))
        .Replace('\u00A0', ' ');

    // Names of vocabularies (xmlns) are addresses too, but nothing is loaded from them.
    [GeneratedRegex("(?:\\b(?:src|href|srcset|action|poster|data|cite)\\s*=\\s*[\"']?|url\\(\\s*[\"']?|@import\\s+[\"']?)\\s*(?:[a-z]+:)?//[^\\s\"']*", RegexOptions.IgnoreCase)]
    private static partial Regex Elsewhere();
}
