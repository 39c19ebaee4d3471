using System.Text;
using System.Xml.Linq;
using CoatScan.Cli.Sheets;

namespace CoatScan.FunctionalTests.CommandLine;

/// <summary>Sheets and tables of <c>inspect</c>, and the photo guide.</summary>
public sealed class SheetTests : IAsyncLifetime
{
    private readonly TempFolder _folder = new();
    private FakeServer _server = null!;

    private string Out => Path.Combine(_folder.Path, "out");

    public async ValueTask InitializeAsync() => _server = await FakeServer.StartAsync();

    public async ValueTask DisposeAsync()
    {
        await _server.DisposeAsync();
        _folder.Dispose();
    }

    [Fact]
    public async Task Inspect_html_writes_sheets_and_an_index_that_leads_to_them()
    {
        var run = await InspectAsync("html", Photo("a b.jpg", "good"), Photo("index.jpg", "good"), Photo("bad.jpg", "refuse"));

        Assert.Equal(1, run.Code);
        Assert.StartsWith($"{Path.Combine(Out, "a b.html")}: ", run.Lines[0], StringComparison.Ordinal);
        Assert.Contains("OVERVIEW of 3, worst first", run.Out, StringComparison.Ordinal);
        var index = XDocument.Parse(await ReadAsync("index.html"));
        var links = index.Descendants("a").Select(one => Uri.UnescapeDataString((string)one.Attribute("href")!)).ToList();
        Assert.Equal(["a b.html", "index-2.html", "photo-guide.html", "findings.csv"], links);
        Assert.All(links, link => Assert.True(File.Exists(Path.Combine(Out, link)), link));
        Assert.Contains("No finding", index.Root!.Value, StringComparison.Ordinal);
        Assert.False(File.Exists(Path.Combine(Out, "bad.html")));
    }

    [Fact]
    public async Task Inspect_pdf_writes_every_sheet_that_is_asked_for()
    {
        var run = await InspectAsync(
            "pdf", Photo("a.jpg", "good"), Photo("b.jpg", "good"), "--sheets", "finding,customer,job-card,vehicle", "--paper", "letter");

        Assert.Equal((0, ""), (run.Code, run.Error));
        string[] pdfs =
        [
            "a.pdf", "b.pdf", "customer/a.pdf", "customer/b.pdf", "job-card/a.pdf", "job-card/b.pdf", "index.pdf", "photo-guide.pdf", "vehicle.pdf",
        ];
        Assert.Equal(
            pdfs.Order(StringComparer.Ordinal),
            Directory.GetFiles(Out, "*.pdf", SearchOption.AllDirectories).Select(path => Path.GetRelativePath(Out, path).Replace('\\', '/')).Order(StringComparer.Ordinal));
        Assert.All(pdfs, name =>
        {
            var pdf = Encoding.Latin1.GetString(File.ReadAllBytes(Path.Combine(Out, name)));
            Assert.StartsWith("%PDF-", pdf, StringComparison.Ordinal);
            Assert.Contains("/MediaBox[0 0 612 792]", pdf.Replace("[ ", "[", StringComparison.Ordinal), StringComparison.Ordinal);
        });
    }

    [Fact]
    public async Task Inspect_csv_writes_rows_in_the_order_of_the_photos_here_and_into_the_folder()
    {
        var run = await InspectAsync("csv", Photo("a.jpg", "slow 1"), Photo("bad.jpg", "refuse"), Photo("c.jpg", "good"));

        Assert.Equal(1, run.Code);
        Assert.Equal(run.Out, await ReadAsync("findings.csv"));
        var rows = run.Out.Split("\r\n", StringSplitOptions.RemoveEmptyEntries);
        Assert.StartsWith("name,panel,", rows[0], StringComparison.Ordinal);
        Assert.Equal(["a.jpg", "bad.jpg", "c.jpg"], rows.Skip(1).Select(row => Path.GetFileName(row.Split(',')[0])));
    }

    [Fact]
    public async Task Inspect_csv_needs_no_folder()
    {
        var run = await CommandLineRun.Of("inspect", Photo("a.jpg", "good"), "--format", "csv", "--server", _server.Address);

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Equal(2, run.Lines.Length);
    }

    [Fact]
    public async Task Inspect_out_that_is_a_file_names_the_path_and_what_to_do()
    {
        var file = _folder.Write("file", "x");

        var run = await CommandLineRun.Of("inspect", Photo("a.jpg", "good"), "--format", "html", "--out", file, "--server", _server.Address);

        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains($"--out: '{file}' cannot be written to: ", run.Error, StringComparison.Ordinal);
        Assert.Contains("Name a folder that this account may write to", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inspect_sheet_that_cannot_be_written_names_it_and_what_to_do()
    {
        var blocked = Directory.CreateDirectory(Path.Combine(Out, "a.html")).FullName;

        var run = await InspectAsync("html", Photo("a.jpg", "good"));

        Assert.Equal(1, run.Code);
        Assert.Contains($"--out: '{blocked}' cannot be written to: ", run.Error, StringComparison.Ordinal);
        Assert.Contains("Name a folder", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Inspect_vehicle_of_too_many_photos_names_the_limit()
    {
        var photos = Enumerable.Range(0, SheetWriter.MostPanels + 1).Select(i => Photo($"{i}.jpg", "good"));

        var run = await InspectAsync("html", [.. photos, "--sheets", "vehicle"]);

        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains("--sheets vehicle takes at most 40 photos; 41 are given.", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("guide.pdf", "%PDF-")]
    [InlineData("guide.HTML", "<!DOCTYPE html>")]
    public async Task Photo_guide_writes_what_the_name_says(string name, string start)
    {
        var path = Path.Combine(_folder.Path, name);

        var run = await CommandLineRun.Of("photo-guide", "--out", path, "--paper", "letter");

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.StartsWith(start, await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Photo_guide_out_that_cannot_be_written_names_the_path_and_what_to_do()
    {
        var path = Path.Combine(_folder.Path, "no", "such", "guide.pdf");

        var run = await CommandLineRun.Of("photo-guide", "--out", path);

        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains($"--out: '{path}' cannot be written to: ", run.Error, StringComparison.Ordinal);
        Assert.Contains("Name a file in a folder", run.Error, StringComparison.Ordinal);
    }

    private string Photo(string name, string script) => _folder.Write(name, script);

    private Task<string> ReadAsync(string name) => File.ReadAllTextAsync(Path.Combine(Out, name), TestContext.Current.CancellationToken);

    private Task<CommandLineRun> InspectAsync(string format, params string[] args) =>
        CommandLineRun.Of(["inspect", .. args, "--format", format, "--out", Out, "--server", _server.Address]);
}
