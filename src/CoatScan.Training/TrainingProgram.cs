using CoatScan.Findings;
using CoatScan.Training.Commands;

namespace CoatScan.Training;

/// <summary>Renders sets, trains, evaluates.</summary>
internal static class TrainingProgram
{
    private const string Usage = """
        train        --out DIR [--per-class N | --small 1] [--version V] [--network FILE] [--keep DIR]
                     [--photos DIR --labels FILE [--map label=class+class,...] [--credit TEXT]]
                     [--shop DIR [--shop-labels FILE] [--shipped DIR]]
        evaluate     DIR [--labels FILE] [--map label=class+class,...] [--model DIR] [--out DIR]
        non-panels   [DIR] [--count N] [--model DIR] | --pictures DIR [--count N]
        render-demo  --out DIR
        views        --out DIR [--seed N] [--per-class N] [--harsh 1] [--more-sound N] [--two-faults 1] [--minutes N] | --photos DIR --labels FILE [--map a=b,...]
        render       --out DIR | --contact-sheet FILE.png [--class ID] [--second ID] [--seed N] [--count N] [--harsh 1] [--shifted 1]
        """;

    /// <returns>0 done, 2 usage, 1 anything else.</returns>
    public static async Task<int> RunAsync(string[] words, TextWriter output, TextWriter error)
    {
        try
        {
            switch (words.FirstOrDefault())
            {
                case "train":
                    TrainCommand.Run(words[1..], output);
                    return 0;
                case "evaluate":
                    EvaluateCommand.Run(words[1..], output);
                    return 0;
                case "non-panels":
                    NonPanelsCommand.Run(words[1..], output);
                    return 0;
                case "render-demo":
                    RenderDemoCommand.Run(words[1..], output);
                    return 0;
                case "views":
                    ViewsCommand.Run(words[1..], output);
                    return 0;
                case "render":
                    RenderCommand.Run(words[1..], output);
                    return 0;
                default:
                    await error.WriteLineAsync(Usage);
                    return 2;
            }
        }
        catch (ArgumentException usage)
        {
            await error.WriteLineAsync(usage.Message);
            await error.WriteLineAsync(Usage);
            return 2;
        }
        catch (Exception failure) when (failure is IOException or InvalidDataException or CoatScanException)
        {
            await error.WriteLineAsync(failure.Message);
            return 1;
        }
    }
}
