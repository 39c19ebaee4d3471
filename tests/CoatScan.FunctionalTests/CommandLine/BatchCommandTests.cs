using System.Text.Json;
using System.Xml.Linq;
using CoatScan.FunctionalTests.Infrastructure;
using CoatScan.V1;
using Google.Protobuf;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary><c>coatscan batch</c> with the real service inside it.</summary>
public sealed class BatchCommandTests : IDisposable
{
    private readonly TempFolder _folder = new();

    private string Lots => Path.Combine(_folder.Path, "lots");

    private string Out => Path.Combine(_folder.Path, "out");

    private string Data => Path.Combine(_folder.Path, "data");

    public void Dispose() => _folder.Dispose();

    [Fact]
    public async Task Batch_writes_findings_and_summaries_names_the_refused_and_answers_the_same_again()
    {
        _folder.Write("lots/lot-1/front.jpg", Panels.Sound);
        _folder.Write("lots/lot-2/hood/one.jpg", Panels.FilmLoss);
        _folder.Write("lots/lot-2/hood/two.jpg", BatchSteps.Variant(Panels.FilmLoss, 2));
        _folder.Write("lots/lot-2/note.jpg", "no photo");

        var first = await CommandLineRun.Of("batch", Lots, "--data", Data, "--out", Out);
        var findings = await File.ReadAllLinesAsync(Path.Combine(Out, "findings.ndjson"), TestContext.Current.CancellationToken);
        var again = await CommandLineRun.Of("batch", Lots, "--data", Data, "--format", "json");

        Assert.Equal((1, ""), (first.Code, first.Error));
        Assert.Contains("2 vehicles, worst first; 2 of 2 panels graded", first.Out, StringComparison.Ordinal);
        Assert.True(
            first.Out.IndexOf("lot-2 ", StringComparison.Ordinal) < first.Out.IndexOf("lot-1 ", StringComparison.Ordinal), first.Out);
        Assert.Contains("lot-2/note.jpg: not used (photo format not allowed)", first.Out, StringComparison.Ordinal);
        Assert.Equal(first.Out, await File.ReadAllTextAsync(Path.Combine(Out, "summary.txt"), TestContext.Current.CancellationToken));

        Assert.Equal(3, findings.Length);
        var hood = JsonParser.Default.Parse<Finding>(findings[1]);
        Assert.Equal(("hood", "lot-2", 2), (hood.Panel, hood.ExternalRef, hood.Photos.Count));
        using var refused = JsonDocument.Parse(findings[2]);
        Assert.Equal("lot-2/note.jpg", refused.RootElement.GetProperty("photo").GetString());
        Assert.Equal("PHOTO_FORMAT_NOT_ALLOWED", refused.RootElement.GetProperty("error").GetProperty("reason").GetString());

        var table = await File.ReadAllLinesAsync(Path.Combine(Out, "summary.csv"), TestContext.Current.CancellationToken);
        Assert.Equal(3, table.Length);
        Assert.StartsWith("vehicle,panel,verdict,", table[0], StringComparison.Ordinal);
        Assert.StartsWith("lot-2,hood,", table[1], StringComparison.Ordinal);

        // Nothing is graded twice: the names of the findings are the same.
        Assert.Equal(findings, again.Lines);
    }

    // Invented panels of one car, as they come with the source, and a second car with a photo that is none.
    [Theory]
    [InlineData("en", "2 vehicles, worst first; 4 of 4 panels graded", 5)]
    [InlineData("de", "2 Fahrzeuge, das schlechteste zuerst; 4 von 4 Teilen bewertet", 5)]
    [InlineData("es", "2 vehículos, el peor primero; 4 de 4 piezas valoradas", 5)]
    public async Task Batch_writes_a_sheet_a_vehicle_and_one_summary_in_the_language_asked_for(string language, string counts, int mostPages)
    {
        _folder.Write("lots/AB 123/hood/a.jpg", Panels.Demo("rings-after-rain"));
        _folder.Write("lots/AB 123/door/a.jpg", Panels.Demo("rust-lower-edge"));
        _folder.Write("lots/AB 123/fender/a.jpg", Panels.Demo("spots-hood"));
        _folder.Write("lots/CD 9/roof.jpg", Panels.Sound);

        var run = await CommandLineRun.Of(
            "batch", Lots, "--data", Data, "--out", Out, "--format", "pdf", "--sheets", "vehicle,finding,customer,job-card", "--language", language);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains(counts, run.Out, StringComparison.Ordinal);
        string[] sheets =
        [
            "vehicles/AB 123.pdf", "vehicles/CD 9.pdf",
            .. new[] { "findings", "customer", "job-card" }.SelectMany(kind =>
                new[] { "AB 123_hood.pdf", "AB 123_door.pdf", "AB 123_fender.pdf", "CD 9_roof.pdf" }.Select(name => $"{kind}/{name}")),
        ];
        Assert.Equal(
            sheets.Order(StringComparer.Ordinal),
            Directory.GetFiles(Out, "*.pdf", SearchOption.AllDirectories)
                .Select(path => Path.GetRelativePath(Out, path).Replace('\\', '/')).Order(StringComparer.Ordinal));
        Assert.Empty(Directory.GetFiles(Out, "*.part", SearchOption.AllDirectories));

        var html = await File.ReadAllTextAsync(Path.Combine(Out, "summary.html"), TestContext.Current.CancellationToken);
        var page = XDocument.Parse(html.Replace("<!DOCTYPE html>", "", StringComparison.Ordinal));
        Assert.Equal(language, page.Root!.Attribute("lang")!.Value);
        var links = page.Descendants("a").Select(one => Uri.UnescapeDataString(one.Attribute("href")!.Value)).ToList();
        Assert.Equal("vehicles/AB 123.pdf", links[0]);
        Assert.Equal(8, links.Count);
        Assert.All(links, link => Assert.True(File.Exists(Path.Combine(Out, link)), link));

        using var vehicle = UglyToad.PdfPig.PdfDocument.Open(Path.Combine(Out, "vehicles/AB 123.pdf"));
        Assert.InRange(vehicle.NumberOfPages, 2, mostPages);
        Assert.Equal(3, vehicle.GetPages().Sum(one => one.GetImages().Count()));
        foreach (var sheet in Directory.GetFiles(Path.Combine(Out, "findings")))
        {
            using var finding = UglyToad.PdfPig.PdfDocument.Open(sheet);
            Assert.InRange(finding.NumberOfPages, 1, 2);
        }
    }

    [Fact]
    public async Task Batch_sheets_of_the_command_circle_the_spots_that_were_counted()
    {
        _folder.Write("lots/AB 123/fender/a.jpg", Panels.Demo("spots-hood"));

        var run = await CommandLineRun.Of("batch", Lots, "--data", Data, "--out", Out);

        Assert.Equal(0, run.Code);
        var finding = JsonParser.Default.Parse<Finding>(
            await File.ReadAllTextAsync(Path.Combine(Out, "findings.ndjson"), TestContext.Current.CancellationToken));
        var counted = finding.Measurements.Single(one => one.Metric == "spot_count").Value;
        Assert.True(counted > 5);
        Assert.Equal(counted, finding.Photos[0].Spots.Count + finding.Photos[0].SpotsLeftOut);
        Assert.All(finding.Photos[0].Spots, spot =>
        {
            Assert.InRange(spot.CenterXPx, 0, finding.Photos[0].WidthPx);
            Assert.InRange(spot.CenterYPx, 0, finding.Photos[0].HeightPx);
            Assert.True(spot.DiameterPx > 0);
        });
        var html = await File.ReadAllTextAsync(Path.Combine(Out, "vehicles/AB 123.html"), TestContext.Current.CancellationToken);
        Assert.Contains($"Counted spots, circled: {counted}.", html, StringComparison.Ordinal);
        var circles = XDocument.Parse(html.Replace("<!DOCTYPE html>", "", StringComparison.Ordinal))
            .Descendants().Single(one => one.Name.LocalName == "path" && one.Attribute("stroke")!.Value == "#000000");
        Assert.Equal((int)counted, circles.Attribute("d")!.Value.Count(letter => letter == 'M'));
    }

    [Fact]
    public async Task Batch_csv_prints_the_table_of_the_summary()
    {
        _folder.Write("lots/lot-1/front.jpg", Panels.Sound);

        var run = await CommandLineRun.Of("batch", Lots, "--data", Data, "--format", "csv");

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.StartsWith("vehicle,panel,verdict,", run.Lines[0], StringComparison.Ordinal);
        Assert.StartsWith("lot-1,", run.Lines[1], StringComparison.Ordinal);
        Assert.Equal(2, run.Lines.Length);
    }

    [Theory]
    [InlineData("--format html writes files: name a folder for them with --out.", "--format", "html")]
    [InlineData("--sheets writes files: name a folder for them with --out.", "--sheets", "finding")]
    [InlineData("--sheets takes finding, customer, job-card and vehicle, separated by commas, not 'all'.", "--sheets", "all")]
    [InlineData("--language takes en, de or es, not 'fr'.", "--language", "fr")]
    public async Task Batch_options_that_do_not_go_together_are_2(string complaint, params string[] options)
    {
        _folder.Write("lots/lot-1/front.jpg", Panels.Sound);

        var run = await CommandLineRun.Of(["batch", Lots, "--data", Data, .. options]);

        Assert.Equal(2, run.Code);
        Assert.Contains(complaint, run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("lots/loose.jpg", "loose.jpg' lies in no vehicle's folder")]
    [InlineData("lots/lot-1/readme.txt", "There are no photos in")]
    [InlineData("elsewhere/a.jpg", "There is no folder")]
    public async Task Batch_folder_that_is_none_is_2_with_one_sentence(string file, string complaint)
    {
        _folder.Write(file, "x");

        var run = await CommandLineRun.Of("batch", Lots, "--data", Data);

        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains(complaint, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Batch_without_a_service_is_3()
    {
        _folder.Write("lots/lot-1/front.jpg", Panels.Sound);

        var run = await CommandLineRun.Of("batch", Lots, "--server", "http://127.0.0.1:9");

        Assert.Equal(3, run.Code);
        Assert.Single(run.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries));
    }
}
