namespace CoatScan.FunctionalTests.CommandLine;

/// <summary>Wrong command lines: 2, one complaint that names the option and its limit, nothing on standard output.</summary>
public sealed class UsageTests
{
    [Theory]
    [InlineData("Name a command: inspect, batch, rank, spray-day, conditions, evidence, serve")]
    [InlineData("There is no command 'paint'", "paint")]
    [InlineData("'photo|folder' missing", "inspect")]
    [InlineData("There is no option '--glos'", "inspect", "a.jpg", "--glos")]
    [InlineData("--gloss-60 takes 0 to 200, not '201'", "inspect", "a.jpg", "--gloss-60", "201")]
    [InlineData("--gloss-60 takes 0 to 200, not '-1'", "inspect", "a.jpg", "--gloss-60", "-1")]
    [InlineData("--gloss-60 takes numbers with a decimal point, not '1,5'", "inspect", "a.jpg", "--gloss-60", "1,5")]
    [InlineData("--gloss-60 takes numbers with a decimal point, not 'NaN'", "inspect", "a.jpg", "--gloss-60", "NaN")]
    [InlineData("--delta-e-00 takes 0 to 100, not '100.1'", "inspect", "a.jpg", "--delta-e-00", "100.1")]
    [InlineData("--film-um takes a number above 0, up to 10000, not '0'", "inspect", "a.jpg", "--film-um", "118,0")]
    [InlineData("--film-um takes numbers with a decimal point, not ''", "inspect", "a.jpg", "--film-um", "118,")]
    [InlineData("--mm-per-px takes a number above 0, up to 10, not '0'", "inspect", "a.jpg", "--mm-per-px", "0")]
    [InlineData("--mm-per-px takes a number above 0, up to 10, not '11'", "inspect", "a.jpg", "--mm-per-px", "11")]
    [InlineData("'--panel'", "inspect", "a.jpg", "--panel")]
    [InlineData("--panel takes a value; '--format' is an option.", "inspect", "a.jpg", "--panel", "--format", "json")]
    [InlineData("--panel takes a value; '--language' is an option.", "inspect", "a.jpg", "--panel", "--language", "de")]
    [InlineData("--data takes a value; '--key-file' is an option.", "batch", "cars", "--data", "--key-file", "k")]
    [InlineData("--format takes text, json, html, pdf or csv, not 'xml'", "inspect", "a.jpg", "--format", "xml")]
    [InlineData("--format takes text or json, not 'pdf'", "conditions", "--format", "pdf")]
    [InlineData("--format html writes files: name a folder for them with --out", "inspect", "a.jpg", "--format", "html")]
    [InlineData("--format pdf writes files: name a folder for them with --out", "inspect", "a.jpg", "--format", "pdf")]
    [InlineData("--sheets writes files: name a folder for them with --out", "inspect", "a.jpg", "--sheets", "customer")]
    [InlineData("--sheets takes finding, customer, job-card and vehicle, separated by commas, not 'all'", "inspect", "a.jpg", "--sheets", "all")]
    [InlineData("--paper takes a4 or letter, not 'a3'", "inspect", "a.jpg", "--paper", "a3")]
    [InlineData("--out takes a file that ends with .pdf or .html, not 'guide.txt'", "photo-guide", "--out", "guide.txt")]
    [InlineData("--paper takes a4 or letter, not 'legal'", "photo-guide", "--out", "guide.pdf", "--paper", "legal")]
    [InlineData("--server takes an address", "inspect", "a.jpg", "--server", "localhost:8081")]
    [InlineData("--data is for the service inside", "rank", "-", "--server", "http://localhost:1", "--data", "d")]
    [InlineData("--evidence: 'rings' is neither a file nor an id", "inspect", "a.jpg", "--evidence", "rings")]
    [InlineData("nothing is given", "inspect", "a.jpg", "--evidence", ",")]
    [InlineData("--applied-on takes a date", "inspect", "a.jpg", "--applied-on", "1 May")]
    [InlineData("go together", "inspect", "a.jpg", "--reflected-distance-mm", "300")]
    [InlineData("go together", "inspect", "a.jpg", "--camera-distance-mm", "300")]
    [InlineData("--said-by takes at most 64", "inspect", "a.jpg", "--said-by", "ooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooooo")]
    [InlineData("--compare-zones takes two rectangles as 100,200,64,64:", "inspect", "a.jpg", "--compare-zones", "1,2,30,40")]
    [InlineData("--compare-zones takes two rectangles", "inspect", "a.jpg", "--compare-zones", "1,2,30,40:1,2,30,-4")]
    [InlineData("--compare-zones takes two rectangles", "inspect", "a.jpg", "--compare-zones", "1,2,30,40:50,2,30,40:9,9,30,40")]
    [InlineData("--compare-zones takes one photo, or --same-panel; 2 photos are given", "inspect", "a.jpg", "b.jpg", "--compare-zones", "1,2,30,40:50,2,30,40")]
    [InlineData("--finish", "spray-day", "--air", "20", "--humidity", "50")]
    [InlineData("--humidity takes a number above 0", "spray-day", "--air", "20", "--humidity", "0", "--finish", "lacquer")]
    [InlineData("cannot go with files", "rank", "-", "a.json")]
    [InlineData("--grpc-port takes a port from 1 to 65535", "serve", "--grpc-port", "65536")]
    [InlineData("--http-port takes a port from 1 to 65535", "serve", "--http-port", "0")]
    [InlineData("--grpc-port and --http-port must differ", "serve", "--grpc-port", "8080", "--data", "d")]
    [InlineData("--host takes an IP address", "serve", "--host", "my.server")]
    public async Task Run_wrong_command_line_is_2_with_one_complaint(string complaint, params string[] args)
    {
        var run = await CommandLineRun.Of(args);

        Assert.Equal(2, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains(complaint, run.Error, StringComparison.Ordinal);
        Assert.InRange(run.Error.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length, 1, 2);
    }

    [Fact]
    public async Task Run_panel_name_of_65_characters_is_2()
    {
        var run = await CommandLineRun.Of("inspect", "a.jpg", "--panel", new string('x', 65));

        Assert.Equal(2, run.Code);
        Assert.Contains("--panel takes at most 64 characters; 65 are given", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_201_film_readings_is_2()
    {
        var run = await CommandLineRun.Of(
            "inspect", "a.jpg", "--film-um", string.Join(',', Enumerable.Repeat("118", 201)));

        Assert.Equal(2, run.Code);
        Assert.Contains("--film-um takes at most 200 numbers; 201 are given", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Run_out_that_is_a_file_is_2()
    {
        using var folder = new TempFolder();
        var file = folder.Write("taken", "a file");

        var run = await CommandLineRun.Of("inspect", "a.jpg", "--out", file);

        Assert.Equal(2, run.Code);
        Assert.Contains("--out", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("inspect", "a.jpg")]
    [InlineData("rank", "-")]
    [InlineData("conditions")]
    [InlineData("evidence")]
    public async Task Run_server_that_does_not_answer_is_3_with_one_sentence(params string[] args)
    {
        // Port 1 is reserved and nobody listens there.
        var run = await CommandLineRun.Of([.. args, "--server", "http://127.0.0.1:1"]);

        Assert.Equal(3, run.Code);
        Assert.Empty(run.Out);
        Assert.Contains("No answer from the service at http://127.0.0.1:1", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--help")]
    [InlineData("inspect", "--help")]
    [InlineData("rank", "--help")]
    [InlineData("serve", "--help")]
    [InlineData("--version")]
    public async Task Run_help_and_version_are_0_on_standard_output(params string[] args)
    {
        var run = await CommandLineRun.Of(args);

        Assert.Equal(0, run.Code);
        Assert.NotEmpty(run.Out);
        Assert.Empty(run.Error);
    }
}
