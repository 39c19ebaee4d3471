using CoatScan.Classification;
using CoatScan.Training.Learning;
using Microsoft.ML;

namespace CoatScan.TrainingTests.Learning;

/// <summary>A shop with invented photos: the network leans to rust where its photos show chips, and to chips where they show rust.</summary>
public sealed class ShopLessonTests
{
    private static readonly MLContext Context = new(1);
    private static readonly string[] Ids = [.. VisualClasses.All];
    private static readonly Calibration Calibration = Calibration.TemperatureOnly(1, new double[Ids.Length], PhotoModelTrainer.PositionRank);

    // As the network answers on renders: right, with noise.
    private static readonly Sample[] Rendered =
        [.. Ids.SelectMany(id => Enumerable.Range(0, 12).Select(i => Samples.Of(id, $"{id}-{i}", Logits(id, i))))];

    private static readonly ModelFolder Shipped = new()
    {
        Card = null!,
        Calibration = Calibration,
        PhotoModel = PhotoModelTrainer.Train(Context, Rendered, FeatureGroups.Shipped, 1),
    };

    [Fact]
    public void Of_parts_by_group_so_that_no_group_teaches_and_judges()
    {
        var lesson = ShopLesson.Of(Shop(groups: 12, i => i), Shipped);

        Assert.Equal(4, lesson.HeldOut.Select(photo => photo.Group).Distinct().Count());
        Assert.Empty(lesson.HeldOut.Select(photo => photo.Group).Intersect(lesson.Training.Select(photo => photo.Group)));
        Assert.Equal(24 * 2, lesson.HeldOut.Count + lesson.Training.Count);
    }

    [Fact]
    public void Of_too_few_groups_says_how_many_are_needed() => Assert.Contains(
        "at least 6", Assert.Throws<InvalidDataException>(() => ShopLesson.Of(Shop(groups: 5, i => i), Shipped)).Message, StringComparison.Ordinal);

    [Fact]
    public void Weight_is_half_of_the_renders_and_at_most_twenty_panels_a_photo()
    {
        var lesson = ShopLesson.Of(Shop(groups: 12, i => i), Shipped);

        Assert.Equal(0.5 * 320 / lesson.Training.Count, lesson.Weight(320), 1e-12);
        Assert.Equal(20, lesson.Weight(100_000));
    }

    [Fact]
    public void Check_passes_a_model_that_learned_the_shop_s_ways()
    {
        var lesson = ShopLesson.Of(Shop(groups: 12, i => i), Shipped);
        var taught = PhotoModelTrainer.Train(Context, Rendered, FeatureGroups.Shipped, 1, lesson.Training, lesson.Weight(Rendered.Length));

        var report = lesson.Check(Context, taught, Calibration with { PhotoModelShare = ShopLesson.PhotoModelShare }, lesson.Weight(Rendered.Length), Rendered);

        Assert.True(report.MacroF1 > report.ShippedMacroF1, $"{report.MacroF1:0.000} against {report.ShippedMacroF1:0.000}");
        Assert.True(report.LogLoss < report.ShippedLogLoss);
    }

    [Fact]
    public void Check_refuses_a_model_that_learned_from_wrong_labels_and_gives_the_figures()
    {
        // The labels of the photos that teach are shifted by one class, those that judge are right.
        var right = Shop(groups: 12, i => i, confused: false);
        var judges = ShopLesson.Of(right, Shipped).HeldOut.Select(photo => photo.Group).ToHashSet();
        var wrong = right.Select(photo => judges.Contains(photo.Group)
            ? photo
            : photo with { ClassIndex = (photo.ClassIndex + 1) % Ids.Length }).ToArray();
        var lesson = ShopLesson.Of(wrong, Shipped);
        var taught = PhotoModelTrainer.Train(Context, Rendered, FeatureGroups.Shipped, 1, lesson.Training, 20);

        var refusal = Assert.Throws<InvalidDataException>(() => lesson.Check(Context, taught, Calibration, 20, Rendered));

        Assert.Contains("Refused: on", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("No model was written", refusal.Message, StringComparison.Ordinal);
    }

    // Two classes, two photos of each a group.
    private static Sample[] Shop(int groups, Func<int, int> noise, bool confused = true) =>
    [
        .. Enumerable.Range(0, groups).SelectMany(group => new[] { VisualClasses.Chips, VisualClasses.Rust }.SelectMany(id =>
        {
            var said = confused ? (id == VisualClasses.Chips ? VisualClasses.Rust : VisualClasses.Chips) : id;
            return Enumerable.Range(0, 2).Select(i =>
            {
                var logits = Logits(said, noise((group * 2) + i), confused ? 1 : 3);

                // The shop's light shows as a little of everything, which renders do not have: that is what can be learned.
                logits[VisualClasses.IndexOf(VisualClasses.Dulling)] += confused ? 2.5f : 0;
                return Samples.Of(id, $"car-{group}", logits);
            });
        })),
    ];

    private static float[] Logits(string id, int noise, float strength = 3)
    {
        var logits = new float[Ids.Length];
        for (var i = 0; i < logits.Length; i++)
        {
            logits[i] = (float)Math.Sin((i * 12.9898) + (noise * 78.233));
        }

        logits[VisualClasses.IndexOf(id)] += strength;
        return logits;
    }
}
