using System.Text.RegularExpressions;

namespace CoatScan.ArchitectureTests;

/// <summary>Gloss units are what a glossmeter reads (ISO 2813, ASTM D523). A photo gives none, and no text may read as if it did.</summary>
/// <remarks>
/// Looked at is every line of text that the program, its knowledge, its contract and its papers are made from. A gloss unit may stand
/// only where somebody's own reading of a meter at 60 degrees is asked for or limited, or where a line says that a photo gives none.
/// </remarks>
public sealed partial class GlossUnitTests
{
    private static readonly string[] Roots = ["src/", "models/knowledge/", "proto/", "demo/", "deploy/", "README.md"];
    private static readonly string[] Kinds = [".cs", ".resx", ".razor", ".yaml", ".json", ".proto", ".md", ".js", ".html", ".css", ".csv"];

    [Fact]
    public void No_text_gives_gloss_units_but_of_a_meter()
    {
        var lines = Lines().ToList();

        Assert.Contains(lines, line => line.Text.Contains("Gloss at 60 degrees, GU", StringComparison.Ordinal));
        Assert.Empty(lines.Where(line => IsForbidden(line.Text)).Select(line => $"{line.File}: {line.Text.Trim()}"));
    }

    [Theory]
    [InlineData("gloss loss: 12 gloss units")]
    [InlineData("<value>Gloss of this zone, GU</value>")]
    [InlineData("<value>Glanzverlust in Glanzeinheiten</value>")]
    [InlineData("<value>Glanz, GE</value>")]
    [InlineData("\"es\": \"pérdida de 12 unidades de brillo\"")]
    [InlineData("measurements.Add(Measurement.Of(\"gloss_loss\", loss, \"GU\", half));")]
    public void A_gloss_unit_read_from_a_photo_is_found(string text) => Assert.True(IsForbidden(text));

    [Theory]
    [InlineData("<value>Gloss at 60 degrees, GU</value>")]
    [InlineData("A relative index of the photo, never gloss units")]
    [InlineData("a guard of 60 GUI tests")]
    public void A_meter_and_a_denial_are_left_alone(string text) => Assert.False(IsForbidden(text));

    private static bool IsForbidden(string line) => GlossUnit().IsMatch(line) && !MeterOrDenial().IsMatch(line);

    private static IEnumerable<(string File, string Text)> Lines() =>
        from file in Repository.Files()
        where Roots.Any(root => file.StartsWith(root, StringComparison.Ordinal))
            && Kinds.Any(kind => file.EndsWith(kind, StringComparison.Ordinal))
        from line in File.ReadLines(Repository.FullPath(file))
        select (file, line);

    // English, German and Spanish, the languages that the program speaks.
    [GeneratedRegex(@"(?i:\bgloss[ _-]?units?\b|\bglanz(?:grad)?einheit(?:en)?\b|\bunidad(?:es)? de brillo\b)|\b(?:GU|GE|UB)\b")]
    private static partial Regex GlossUnit();

    [GeneratedRegex(@"60 (?:degrees|Grad|grados)|gloss60|\bnever\b|\bno gloss units?\b")]
    private static partial Regex MeterOrDenial();
}
