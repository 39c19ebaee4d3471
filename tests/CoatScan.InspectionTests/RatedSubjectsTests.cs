using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Inspection;
using CoatScan.Metrics.Ratings;

namespace CoatScan.InspectionTests;

public sealed class RatedSubjectsTests
{
    private static readonly KnowledgeBase Knowledge = KnowledgeBase.Load(Folder());

    [Theory]
    [InlineData("rust", RatingSubject.Rust)]
    [InlineData("film_loss", RatingSubject.FilmLoss)]
    [InlineData("chips", RatingSubject.FilmLoss)]
    [InlineData("domes", RatingSubject.Blisters)]
    [InlineData("crack_network", RatingSubject.Cracks)]
    [InlineData("rings", RatingSubject.Spots)]
    public void Of_visual_class_names_its_subject(string visualClass, RatingSubject subject)
    {
        Assert.Equal([subject], Of([(visualClass, 0.6), ("sound", 0.4)], []));
        Assert.Empty(Of([(visualClass, 0.2), ("sound", 0.8)], []));
    }

    [Theory]
    [InlineData("salt_corrosion", RatingSubject.Rust)]
    [InlineData("rust_underfilm", RatingSubject.Rust)]
    [InlineData("intercoat_peel", RatingSubject.FilmLoss)]
    [InlineData("chip", RatingSubject.FilmLoss)]
    [InlineData("blistering", RatingSubject.Blisters)]
    [InlineData("crack_alligator", RatingSubject.Cracks)]
    [InlineData("tree_sap", RatingSubject.Spots)]
    public void Of_condition_is_rated_by_the_standard_that_the_knowledge_names(string condition, RatingSubject subject)
    {
        Assert.Equal([subject], Of([], [(condition, 0.3)]));
        Assert.Empty(Of([], [(condition, 0.2)]));
    }

    // Shares of conditions that one standard rates are summed; "ISO 4628-3 only if rust in film" is no rust by itself.
    [Fact]
    public void Of_look_alikes_count_together_and_what_holds_only_sometimes_does_not()
    {
        Assert.Equal([RatingSubject.Rust], Of([], [("salt_corrosion", 0.15), ("rust_underfilm", 0.15)]));
        Assert.Empty(Of([], [("iron_fallout", 0.9)]));
        Assert.Empty(Of([("sound", 1.0)], [("sound", 1.0), ("condition_of_tomorrow", 1.0)]));
    }

    private static IEnumerable<RatingSubject> Of((string Class, double Share)[] classes, (string Id, double Share)[] conditions) =>
        RatedSubjects.Of(
            [.. classes.Select(one => new VisualClassShare { VisualClass = one.Class, Probability = one.Share })],
            [.. conditions.Select(one => new ConditionShare(one.Id, one.Share, []))],
            Knowledge);

    private static string Folder()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!Directory.Exists(Path.Combine(folder.FullName, "models", "knowledge", "conditions")))
        {
            folder = folder.Parent ?? throw new DirectoryNotFoundException("models/knowledge");
        }

        return Path.Combine(folder.FullName, "models", "knowledge");
    }
}
