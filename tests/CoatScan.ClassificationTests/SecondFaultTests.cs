using CoatScan.Classification;

namespace CoatScan.ClassificationTests;

public sealed class SecondFaultTests
{
    private static readonly int Chips = VisualClasses.IndexOf(VisualClasses.Chips);
    private static readonly int Rust = VisualClasses.IndexOf(VisualClasses.Rust);

    // Weights that ask one thing: that the second class leads in some cells.
    private static readonly SecondFault Rule = new() { Weights = [-2, 0, 0, 2, 0], Threshold = 0.5 };

    [Fact]
    public void Find_names_the_fault_that_leads_in_cells_of_its_own() =>
        Assert.Equal(Rust, Rule.Find(Cells(chips: 20, rust: 10), Probabilities(Chips))!.Value.ClassIndex);

    [Fact]
    public void Find_names_none_where_all_cells_show_the_first() =>
        Assert.Null(Rule.Find(Cells(chips: 30, rust: 0), Probabilities(Chips)));

    [Fact]
    public void Find_names_none_beside_sound_paint() =>
        Assert.Null(Rule.Find(Cells(chips: 20, rust: 10), Probabilities(VisualClasses.IndexOf(VisualClasses.Sound))));

    [Fact]
    public void Best_cells_are_the_strongest_in_order()
    {
        var logits = new float[CellMap.Length];
        (logits[(Rust * CellMap.Count) + 7], logits[(Rust * CellMap.Count) + 3], logits[(Rust * CellMap.Count) + 9]) = (3, 5, 1);
        var best = new int[3];

        CellMap.Of(logits).Best(Rust, best);

        Assert.Equal([3, 7, 9], best);
    }

    private static double[] Probabilities(int most)
    {
        var probabilities = new double[VisualClasses.All.Count];
        Array.Fill(probabilities, 0.5 / (probabilities.Length - 1));
        probabilities[most] = 0.5;
        return probabilities;
    }

    // Sound paint, with chips in the first cells and rust in the last ones.
    private static CellMap Cells(int chips, int rust)
    {
        var logits = new float[CellMap.Length];
        for (var cell = 0; cell < CellMap.Count; cell++)
        {
            logits[cell] = 4;
            logits[(Chips * CellMap.Count) + cell] = cell < chips || rust == 0 ? 8 : 1;
            logits[(Rust * CellMap.Count) + cell] = cell >= CellMap.Count - rust ? 8 : 0;
        }

        return CellMap.Of(logits);
    }
}
