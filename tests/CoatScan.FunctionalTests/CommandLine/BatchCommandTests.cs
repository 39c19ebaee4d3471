using System.Text.Json;
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

    [Theory]
    [InlineData("lots/loose.jpg", "loose.jpg lies in no vehicle's folder")]
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
