using CoatScan.Classification;

namespace CoatScan.ClassificationTests;

public sealed class CellMapTests
{
    private static readonly int Rust = VisualClasses.IndexOf(VisualClasses.Rust);

    private static readonly int Sound = VisualClasses.IndexOf(VisualClasses.Sound);

    [Fact]
    public void Classes_is_the_number_of_visual_classes() => Assert.Equal(CellMap.Classes, VisualClasses.All.Count);

    [Fact]
    public void Against_is_the_softmax_of_the_class_and_sound_alone()
    {
        var logits = new float[CellMap.Length];
        Array.Fill(logits, 5f);
        logits[(Rust * CellMap.Count) + 7] = 1f + MathF.Log(3f);
        logits[(Sound * CellMap.Count) + 7] = 1f;

        // exp(ln 3) to 1.
        Assert.Equal(0.75, CellMap.Of(logits).Against(Rust, 7), 1e-6);
    }

    [Fact]
    public void LogPeaks_is_the_mean_share_of_the_four_strongest_cells()
    {
        var logits = new float[CellMap.Length];
        for (var cell = 0; cell < CellMap.Count; cell++)
        {
            logits[(Sound * CellMap.Count) + cell] = 60f;
        }

        foreach (var cell in new[] { 3, 90 })
        {
            logits[(Rust * CellMap.Count) + cell] = 120f;
        }

        // Two cells of four are all rust, the others none.
        Assert.Equal(Math.Log(0.5), CellMap.Of(logits).LogPeaks()[Rust], 1e-5);
    }
}
