using CoatScan.Classification;

namespace CoatScan.ClassificationTests;

public sealed class MirrorMeanTests
{
    private static readonly int Rust = VisualClasses.IndexOf(VisualClasses.Rust);

    private static readonly int Chips = VisualClasses.IndexOf(VisualClasses.Chips);

    // By hand: odds of rust against chips 9 in the picture and 1/4 in its mirror image give sqrt(9 / 4) = 1.5.
    [Fact]
    public void Of_gives_odds_that_are_the_geometric_mean_of_the_picture_and_its_mirror_image()
    {
        var (plain, mirrored) = (Output(), Output());
        plain.Answer[Rust] = MathF.Log(9);
        mirrored.Answer[Chips] = MathF.Log(4);

        var mean = MirrorMean.Of(plain, mirrored);

        Assert.Equal(1.5, Math.Exp(mean.Answer[Rust] - mean.Answer[Chips]), 1e-5);
    }

    [Fact]
    public void Of_puts_the_cells_of_the_mirror_image_back_to_their_places()
    {
        const int Row = 3;
        const int Column = 2;
        var (plain, mirrored) = (Output(), Output());
        plain.Cells[(Rust * CellMap.Count) + (Row * CellMap.Side) + Column] = 5;
        mirrored.Cells[(Rust * CellMap.Count) + (Row * CellMap.Side) + CellMap.Side - 1 - Column] = 5;

        var map = CellMap.Of(MirrorMean.Of(plain, mirrored).Cells);

        var share = Math.Exp(5) / (Math.Exp(5) + CellMap.Classes - 1);
        Assert.Equal(share, map.Share(Rust, (Row * CellMap.Side) + Column), 1e-5);
        Assert.All(
            Enumerable.Range(0, CellMap.Count).Where(cell => cell != (Row * CellMap.Side) + Column),
            cell => Assert.Equal(1.0 / CellMap.Classes, map.Share(Rust, cell), 1e-5));
    }

    [Fact]
    public void Of_averages_the_features()
    {
        var (plain, mirrored) = (Output(), Output());
        (plain.Mean, mirrored.Mean) = ([1f, 2f], [3f, 6f]);
        (plain.Peak, mirrored.Peak) = ([10f], [20f]);

        var mean = MirrorMean.Of(plain, mirrored);

        Assert.Equal([2f, 4f], mean.Mean);
        Assert.Equal([15f], mean.Peak);
    }

    private static NetworkOutput Output() =>
        new() { Mean = [0f], Peak = [0f], Answer = new float[CellMap.Classes], Cells = new float[CellMap.Length] };
}
