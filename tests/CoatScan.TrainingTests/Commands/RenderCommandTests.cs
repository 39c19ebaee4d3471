using System.Text.Json;
using CoatScan.Training;
using SixLabors.ImageSharp;

namespace CoatScan.TrainingTests.Commands;

public sealed class RenderCommandTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("coatscan-render-").FullName;

    [Fact]
    public async Task Render_to_a_folder_writes_pictures_masks_labels_and_truth_and_repeats_by_seed()
    {
        var (once, again) = (Path.Combine(_folder, "once"), Path.Combine(_folder, "again"));

        var (code, _, error) = await Run("render", "--out", once, "--class", "chips", "--seed", "41", "--count", "2");
        await Run("render", "--out", again, "--class", "chips", "--seed", "41", "--count", "2");

        Assert.True(code == 0, error);
        string[] expected =
            ["chips-41-mask.png", "chips-41.jpg", "chips-42-mask.png", "chips-42.jpg", "labels.csv", "truth.jsonl"];
        Assert.Equal(expected, Directory.GetFiles(once).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.All(expected, name => Assert.Equal(
            File.ReadAllBytes(Path.Combine(once, name)), File.ReadAllBytes(Path.Combine(again, name))));
        Assert.Equal(
            ["file,label,group", "chips-41.jpg,chips,chips-41", "chips-42.jpg,chips,chips-42"],
            File.ReadAllLines(Path.Combine(once, "labels.csv")));
        var truth = JsonDocument.Parse(File.ReadAllLines(Path.Combine(once, "truth.jsonl"))[1]).RootElement;
        Assert.Equal(42, truth.GetProperty("seed").GetInt32());
        Assert.InRange(truth.GetProperty("mmPerPx").GetDouble(), 0.01, 10);
        Assert.InRange(truth.GetProperty("facts").GetProperty("paintLStar").GetDouble(), 0, 100);
        var picture = Image.Identify(Path.Combine(once, "chips-42.jpg"));
        Assert.Equal(truth.GetProperty("widthPx").GetInt32(), picture.Width);
        using var mask = Image.Load<SixLabors.ImageSharp.PixelFormats.L8>(Path.Combine(once, truth.GetProperty("mask").GetString()!));
        var white = 0;
        mask.ProcessPixelRows(rows =>
        {
            for (var y = 0; y < rows.Height; y++)
            {
                foreach (var pixel in rows.GetRowSpan(y))
                {
                    white += pixel.PackedValue == 255 ? 1 : 0;
                }
            }
        });
        Assert.Equal(truth.GetProperty("areaFraction").GetDouble(), white / (double)(picture.Width * picture.Height), 1e-12);
    }

    [Fact]
    public async Task Render_of_no_panel_has_no_mask_and_no_scale()
    {
        await Run("render", "--out", _folder, "--class", "not_a_panel", "--count", "1");

        var truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(_folder, "truth.jsonl"))).RootElement;
        Assert.Equal(JsonValueKind.Null, truth.GetProperty("mask").ValueKind);
        Assert.Equal(JsonValueKind.Null, truth.GetProperty("mmPerPx").ValueKind);
        Assert.Empty(Directory.GetFiles(_folder, "*mask*"));
    }

    [Fact]
    public async Task Render_of_two_faults_gives_both_masks()
    {
        await Run("render", "--out", _folder, "--class", "stains", "--second", "chips", "--count", "1");

        var truth = JsonDocument.Parse(File.ReadAllText(Path.Combine(_folder, "truth.jsonl"))).RootElement;
        Assert.Equal("chips", truth.GetProperty("secondClass").GetString());
        Assert.True(File.Exists(Path.Combine(_folder, truth.GetProperty("secondMask").GetString()!)));
    }

    [Fact]
    public async Task Contact_sheet_has_a_row_a_class_and_a_column_a_seed()
    {
        var file = Path.Combine(_folder, "sheet.png");

        var (code, output, error) = await Run("render", "--contact-sheet", file, "--class", "rust", "--count", "3");

        Assert.True(code == 0, error);
        Assert.Contains("rust", output, StringComparison.Ordinal);
        var sheet = Image.Identify(file);
        Assert.Equal((600, 200), (sheet.Width, sheet.Height));
    }

    [Theory]
    [InlineData("--out", "--class", "dusty")]
    [InlineData("--count", "--out", "x", "--count", "0")]
    [InlineData("--contact-sheet", "--count", "1")]
    [InlineData("--contact-sheet", "--out", "x", "--contact-sheet", "y")]
    public async Task Render_with_bad_words_says_which_and_writes_nothing(string named, params string[] words)
    {
        string[] all = named == "--out" ? ["--out", Path.Combine(_folder, "x"), .. words] : words;

        var (code, _, error) = await Run(["render", .. all.Select(word => word is "x" or "y" ? Path.Combine(_folder, word) : word)]);

        Assert.Equal(2, code);
        Assert.Contains(named == "--out" ? "dusty" : named, error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder));
    }

    [Fact]
    public async Task Views_of_two_faults_hold_a_picture_and_two_masks_a_row()
    {
        var (code, _, error) = await Run(
            "views", "--out", _folder, "--seed", "5000001", "--per-class", "1", "--two-faults", "1");

        Assert.True(code == 0, error);
        var rows = File.ReadAllLines(Path.Combine(_folder, "index.csv"));
        Assert.NotEmpty(rows);
        Assert.All(rows, row => Assert.Equal(3, row.Split(',').Length));
        Assert.All(rows, row => Assert.NotEqual(row.Split(',')[0], row.Split(',')[2]));
        Assert.Equal(rows.Length * 448 * 448 * 3, new FileInfo(Path.Combine(_folder, "views.bin")).Length);
        Assert.Equal(rows.Length * 56 * 56, new FileInfo(Path.Combine(_folder, "masks.bin")).Length);
        Assert.Equal(rows.Length * 56 * 56, new FileInfo(Path.Combine(_folder, "seconds.bin")).Length);
        var seconds = File.ReadAllBytes(Path.Combine(_folder, "seconds.bin"));
        Assert.All(
            Enumerable.Range(0, rows.Length),
            row => Assert.Contains(seconds.AsSpan(row * 56 * 56, 56 * 56).ToArray(), share => share > 0));
    }

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static async Task<(int Code, string Output, string Error)> Run(params string[] words)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var code = await TrainingProgram.RunAsync(words, output, error);
        return (code, output.ToString(), error.ToString());
    }
}
