using CoatScan.Training.Evaluation;

namespace CoatScan.TrainingTests.Evaluation;

public sealed class ConfusionMatrixTests
{
    [Fact]
    public void Scores_of_the_reference_matrix_are_the_published_ones()
    {
        var f1 = ScienceCases.Stats.GetProperty("f1");
        var counts = f1.GetProperty("m").EnumerateArray().Select(ScienceCases.Doubles).ToArray();
        var matrix = new int[3, 3];
        for (var row = 0; row < 3; row++)
        {
            for (var column = 0; column < 3; column++)
            {
                matrix[row, column] = (int)counts[row][column];
            }
        }

        var confusion = new ConfusionMatrix(matrix);

        for (var index = 0; index < 3; index++)
        {
            Assert.Equal(f1.GetProperty("precision").Doubles()[index], confusion.Precision(index)!.Value, 1e-6);
            Assert.Equal(f1.GetProperty("recall").Doubles()[index], confusion.Recall(index)!.Value, 1e-6);
            Assert.Equal(f1.GetProperty("f1").Doubles()[index], confusion.F1(index)!.Value, 1e-6);
        }

        Assert.Equal(f1.GetProperty("macro").GetDouble(), confusion.MacroF1([0, 1, 2]), 1e-6);
        Assert.Equal(f1.GetProperty("micro_accuracy").GetDouble(), confusion.Accuracy(), 1e-6);
    }

    [Fact]
    public void MacroF1_leaves_out_classes_that_do_not_occur()
    {
        var confusion = new ConfusionMatrix(3);
        confusion.Add(0, 0);
        confusion.Add(1, 2);

        // Class 0 is right (1), class 1 never (0), class 2 does not occur.
        Assert.Equal(0.5, confusion.MacroF1([0, 1, 2]));
    }

    [Fact]
    public void Precision_of_a_class_never_called_is_absent()
    {
        var confusion = new ConfusionMatrix(2);
        confusion.Add(0, 1);

        Assert.Null(confusion.Precision(0));
        Assert.Null(confusion.Recall(1));
        Assert.Equal(0, confusion.F1(0));
    }
}
