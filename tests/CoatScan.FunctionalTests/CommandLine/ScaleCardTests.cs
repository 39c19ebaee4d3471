using System.Text;

namespace CoatScan.FunctionalTests.CommandLine;

public sealed class ScaleCardTests
{
    [Theory]
    [InlineData("A4", "/MediaBox [0 0 595")]
    [InlineData("letter", "/MediaBox [0 0 612")]
    public async Task Scale_card_writes_a_sheet_of_the_paper(string paper, string box)
    {
        using var folder = new TempFolder();
        string path = Path.Combine(folder.Path, "card.pdf");

        var run = await CommandLineRun.Of("scale-card", "--out", path, "--paper", paper, "--vehicle", "AB 123", "--panel", "hood");

        Assert.Equal((0, ""), (run.Code, run.Error));
        Assert.Contains("print at 100 %", run.Out, StringComparison.Ordinal);
        string pdf = Encoding.Latin1.GetString(await File.ReadAllBytesAsync(path, TestContext.Current.CancellationToken));
        Assert.StartsWith("%PDF-", pdf, StringComparison.Ordinal);
        Assert.Contains("(Vehicle: AB 123)", pdf, StringComparison.Ordinal);
        Assert.Contains(box.Replace(" ", "", StringComparison.Ordinal), pdf.Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de", "(Maßkarte)", "(Fahrzeug: AB 123)", "(Teil: hood)")]
    [InlineData("es", "(Tarjeta de escala)", "(Vehículo: AB 123)", "(Pieza: hood)")]
    public async Task Scale_card_speaks_the_language_asked_for(string language, params string[] said)
    {
        using var folder = new TempFolder();
        string path = Path.Combine(folder.Path, "card.pdf");

        var run = await CommandLineRun.Of(
            "scale-card", "--out", path, "--vehicle", "AB 123", "--panel", "hood", "--language", language);

        Assert.Equal((0, ""), (run.Code, run.Error));
        string pdf = Encoding.Latin1.GetString(await File.ReadAllBytesAsync(path, TestContext.Current.CancellationToken));
        Assert.All(said, text => Assert.Contains(text, pdf, StringComparison.Ordinal));

        // Every label but the shares of the patches, by how the English ones begin.
        Assert.All(
            ["(Lay", "(Reflectance against", "(ink", "(Print", "(Upright", "(Cut"],
            english => Assert.DoesNotContain(english, pdf, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("--paper takes A4 or LETTER, not 'A3'", "--out", "card.pdf", "--paper", "A3")]
    [InlineData("--out", "--paper", "A4")]
    [InlineData("too long together", "--out", "card.pdf", "--vehicle", "a reference of the vehicle that is longer than a card can carry")]
    [InlineData("cannot be written to", "--out", "no/such/folder/card.pdf")]
    public async Task Scale_card_wrong_command_line_is_2(string complaint, params string[] args)
    {
        var run = await CommandLineRun.Of(["scale-card", .. args]);

        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains(complaint, run.Error, StringComparison.Ordinal);
    }
}
