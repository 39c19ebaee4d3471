using CoatScan.Classification;

namespace CoatScan.ClassificationTests;

public sealed class AnswerMeanTests
{
    private static readonly int Count = VisualClasses.All.Count;

    private static readonly int Sound = VisualClasses.IndexOf(VisualClasses.Sound);

    private static readonly int Rust = VisualClasses.IndexOf(VisualClasses.Rust);

    private static readonly int Chips = VisualClasses.IndexOf(VisualClasses.Chips);

    // By hand: the odds of two classes are the weighed geometric mean of both models' odds, here 9 and 1/4: sqrt(9 * 1/4) = 1.5 where both
    // count alike, 9^0.25 * (1/4)^0.75 = 0.6124 where the photo model counts a quarter.
    [Theory]
    [InlineData(0.5, 1.5)]
    [InlineData(0.25, 0.6124)]
    [InlineData(0, 0.25)]
    public void Of_gives_odds_that_are_the_geometric_mean_of_both(double share, double odds)
    {
        var score = Enumerable.Repeat(0.1f / (Count - 2), Count).ToArray();
        (score[Rust], score[Chips]) = (0.81f, 0.09f);
        var answer = new float[Count];
        answer[Chips] = MathF.Log(4);

        var mean = AnswerMean.Of(score, Features(answer), share, cellShare: 0);

        Assert.Equal(odds, mean[Rust] / (double)mean[Chips], 1e-4);
        Assert.Equal(1, mean.Sum(share => (double)share), 1e-6);
    }

    // By hand: 7 in 31 of the network's views were sound and 5 in 29 of the photo model's panels, against one of each other class; the mean
    // takes the ratio 5/7 to the power of what the network counts.
    [Fact]
    public void Of_brings_the_networks_share_of_sound_to_that_of_the_photo_model()
    {
        var even = Enumerable.Repeat(1f / Count, Count).ToArray();

        var mean = AnswerMean.Of(even, Features(new float[Count]), AnswerMean.UsualShare, cellShare: 0);

        Assert.Equal(Math.Pow(5.0 / 7, 1 - AnswerMean.UsualShare), mean[Sound] / (double)mean[Rust], 1e-5);
    }

    // By hand: a twentieth of the cells shows rust by 1/2 and chips by 1/4, the others sound paint alone; the whole picture says nothing. Rust
    // against chips is 2 to the power of what the cells count, and sound, which rust leaves 1/2, stands at 5/7 of rust.
    [Theory]
    [InlineData(0.25, 1.1892)]
    [InlineData(1, 2)]
    public void Of_lets_the_twentieth_of_the_cells_that_shows_a_class_most_speak_for_it(double cellShare, double odds)
    {
        const float Never = -40;
        var cells = new float[CellMap.Length];
        for (var cell = 0; cell < CellMap.Count; cell++)
        {
            for (var c = 0; c < Count; c++)
            {
                cells[(c * CellMap.Count) + cell] = (cell < CellMap.Count / 20, c) switch
                {
                    (true, _) when c == Rust => MathF.Log(0.5f),
                    (true, _) when c == Chips => MathF.Log(0.25f),
                    (true, _) when c == Sound => MathF.Log(0.25f),
                    (false, _) when c == Sound => 0,
                    _ => Never,
                };
            }
        }

        var mean = AnswerMean.Of(new float[Count], Features(new float[Count]) with { Cells = cells }, share: 0, cellShare);

        Assert.Equal(odds, mean[Rust] / (double)mean[Chips], 1e-3);
        Assert.Equal(5.0 / 7, mean[Sound] / (double)mean[Rust], 1e-3);
    }

    private static PhotoFeatures Features(float[] answer) =>
        new() { Mean = [], Peak = [], Answer = answer, Cells = new float[CellMap.Length] };
}
