using CoatScan.Classification;

namespace CoatScan.ClassificationTests;

public sealed class LookMeanTests
{
    private static readonly int Rust = VisualClasses.IndexOf(VisualClasses.Rust);

    private static readonly int Chips = VisualClasses.IndexOf(VisualClasses.Chips);

    // By hand: odds of rust against chips 9 in one look and 1/4 in the other give sqrt(9 / 4) = 1.5.
    [Fact]
    public void Of_gives_odds_that_are_the_geometric_mean_of_both_looks()
    {
        var (large, small) = (Output(), Output());
        large.Answer[Rust] = MathF.Log(9);
        small.Answer[Chips] = MathF.Log(4);

        var mean = LookMean.Of(large, small);

        Assert.Equal(1.5, Math.Exp(mean.Answer[Rust] - mean.Answer[Chips]), 1e-5);
    }

    [Fact]
    public void Of_takes_the_cells_of_the_larger_picture()
    {
        const int Cell = 44;
        var (large, small) = (Output(), Output());
        large.Cells[(Rust * CellMap.Count) + Cell] = 5;
        small.Cells = new float[CellMap.Classes * 100];
        Array.Fill(small.Cells, 9f, Chips * 100, 100);

        var map = CellMap.Of(LookMean.Of(large, small).Cells);

        Assert.Equal(Math.Exp(5) / (Math.Exp(5) + CellMap.Classes - 1), map.Share(Rust, Cell), 1e-5);
        Assert.All(
            Enumerable.Range(0, CellMap.Count).Where(cell => cell != Cell),
            cell => Assert.Equal(1.0 / CellMap.Classes, map.Share(Rust, cell), 1e-5));
    }

    [Fact]
    public void Of_averages_the_features()
    {
        var (large, small) = (Output(), Output());
        (large.Mean, small.Mean) = ([1f, 2f], [3f, 6f]);
        (large.Peak, small.Peak) = ([10f], [20f]);

        var mean = LookMean.Of(large, small);

        Assert.Equal([2f, 4f], mean.Mean);
        Assert.Equal([15f], mean.Peak);
    }

    private static NetworkOutput Output() =>
        new() { Mean = [0f], Peak = [0f], Answer = new float[CellMap.Classes], Cells = new float[CellMap.Length] };
}
