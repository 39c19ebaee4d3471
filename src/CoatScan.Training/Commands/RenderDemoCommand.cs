using CoatScan.Classification;
using CoatScan.Training.Rendering;

namespace CoatScan.Training.Commands;

/// <summary>Writes the demo photos: invented panels of every visual class, with their labels.</summary>
internal static class RenderDemoCommand
{
    // Far from every set of a training plan.
    private const int FirstSeed = 90_001;

    private const int DefaultPerClass = 3;

    public static void Run(string[] words, TextWriter output)
    {
        var arguments = new Arguments(words, ["out", "per-class"]);
        var folder = arguments.Required("out");
        var perClass = arguments.Whole("per-class", DefaultPerClass);
        Directory.CreateDirectory(folder);
        var lines = new List<string> { "file,label,group" };
        foreach (var visualClass in VisualClasses.All)
        {
            for (var seed = FirstSeed; seed < FirstSeed + perClass; seed++)
            {
                var file = ReportedName(visualClass, seed);
                var panel = RenderedPhotos.Panel(visualClass, seed);
                File.WriteAllBytes(Path.Combine(folder, file), RenderedPhotos.Jpeg(panel, seed, harsh: false));
                lines.Add($"{file},{visualClass},{Path.GetFileNameWithoutExtension(file)}");
            }
        }

        File.WriteAllText(Path.Combine(folder, "labels.csv"), string.Join('\n', lines) + "\n");
        output.WriteLine($"{lines.Count - 1} invented photos in '{folder}'");
    }

    private static string ReportedName(string visualClass, int seed) =>
        FormattableString.Invariant($"{visualClass}-{seed}.jpg");
}
