using CoatScan.DemoPanels;
using CoatScan.Training;

namespace CoatScan.TrainingTests.Commands;

public sealed class EvaluateCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("coatscan-evaluate-").FullName;

    [Fact]
    public async Task Evaluate_of_a_labelled_folder_writes_report_and_drawings()
    {
        var labels = new List<string> { "file,label,group" };
        foreach (var (id, label) in new[] { ("chips", "chipped"), ("rust", "rust"), ("swirl", "marks") })
        {
            var name = $"{id}.jpg";
            File.WriteAllBytes(Path.Combine(_folder, name), DemoPanelRenderer.Render(id, 900_001, new DemoPanelOptions()).EncodeJpeg(90));
            labels.Add($"{name},{label},{id}");
        }

        File.WriteAllLines(Path.Combine(_folder, "labels.csv"), labels);
        var target = Path.Combine(_folder, "out");

        var (code, _, error) = await Run(_folder, "--map", "chipped=chips,marks=swirl+single_scratch", "--out", target);

        Assert.True(code == 0, error);
        var report = File.ReadAllText(Path.Combine(target, "evaluation.md"));
        Assert.Contains("3 photos in 3 groups", report, StringComparison.Ordinal);
        Assert.Contains("swirl+single_scratch", report, StringComparison.Ordinal);
        foreach (var drawing in new[] { "confusion", "reliability", "risk-coverage" })
        {
            Assert.Contains($"photos-{drawing}.svg", report, StringComparison.Ordinal);
            var svg = System.Xml.Linq.XDocument.Load(Path.Combine(target, $"photos-{drawing}.svg"));
            Assert.Equal("svg", svg.Root!.Name.LocalName);
        }
    }

    [Theory]
    [InlineData("file,label\na.jpg,chips\n", 1, "no column 'group'")]
    [InlineData("file,label,group\na.jpg,shiny,g\n", 1, "'shiny'")]
    [InlineData("file,label,group\na.jpg,chips\n", 1, "too few columns")]
    [InlineData("file,label,group\nmissing.jpg,chips,g\n", 1, "missing.jpg")]
    [InlineData("file,label,group\n", 1, "No photo")]
    [InlineData("", 1, "no column 'file'")]
    public async Task Evaluate_of_bad_labels_says_what_is_wrong(string labels, int code, string word)
    {
        File.WriteAllText(Path.Combine(_folder, "labels.csv"), labels);

        var (returned, _, error) = await Run(_folder);

        Assert.Equal(code, returned);
        Assert.Contains(word, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Evaluate_without_a_label_file_names_it()
    {
        var (code, _, error) = await Run(_folder);

        Assert.Equal(1, code);
        Assert.Contains("labels.csv", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Evaluate_without_a_folder_is_a_mistake_of_usage()
    {
        var (code, _, error) = await Run("--out", _folder);

        Assert.Equal(2, code);
        Assert.Contains("folder", error, StringComparison.Ordinal);
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static async Task<(int Code, string Output, string Error)> Run(params string[] words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = await TrainingProgram.RunAsync(["evaluate", .. words], output, error);
        return (code, output.ToString(), error.ToString());
    }
}
