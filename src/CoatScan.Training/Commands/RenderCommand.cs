using System.Text.Json;
using CoatScan.DemoPanels;
using CoatScan.Imaging;
using CoatScan.Training.Rendering;

namespace CoatScan.Training.Commands;

/// <summary>
/// Renders invented panels from seeds: to a folder, each with label, masks and what is true about it, or onto one sheet to be looked at, one row
/// a class. Equal seeds give equal files.
/// </summary>
internal static class RenderCommand
{
    /// <summary>One line of JSON a picture, in the order of the files.</summary>
    public const string TruthFile = "truth.jsonl";

    private const int DefaultCount = 6;

    private static readonly JsonSerializerOptions Json = new(JsonSerializerDefaults.Web);

    public static void Run(string[] words, TextWriter output)
    {
        var arguments = new Arguments(words, ["out", "contact-sheet", "class", "second", "seed", "count", "harsh", "shifted"]);
        var (folder, sheet) = (arguments.Optional("out"), arguments.Optional("contact-sheet"));
        if (folder is null == sheet is null)
        {
            throw new ArgumentException("render needs either --out DIR or --contact-sheet FILE.png.");
        }

        IReadOnlyList<string> classes = arguments.Optional("class") is { } only ? [only] : VisualClassIds.All;
        if (classes.FirstOrDefault(name => !VisualClassIds.All.Contains(name)) is { } unknown)
        {
            throw new ArgumentException($"--class '{unknown}' is none of {string.Join(", ", VisualClassIds.All)}.");
        }

        var count = arguments.Whole("count", DefaultCount);
        if (count < 1)
        {
            throw new ArgumentException($"--count {count} is below 1.");
        }

        var plan = new Plan(
            classes, arguments.Whole("seed", 1), count, arguments.Whole("harsh", 0) != 0,
            arguments.Whole("shifted", 0) != 0 ? PanelLook.Shifted : PanelLook.Usual, arguments.Optional("second"));
        if (sheet is not null)
        {
            WriteSheet(plan, sheet);
            output.WriteLine($"rows: {string.Join(", ", classes)}");
            return;
        }

        WriteFolder(plan, folder!);
        output.WriteLine($"{classes.Count * count} invented pictures in '{folder}', what is true about them in {LabelledFolder.DefaultLabels} and {TruthFile}");
    }

    private static void WriteSheet(Plan plan, string file)
    {
        var sheet = new ContactSheet(plan.Count, plan.Classes.Count);
        Parallel.For(0, plan.Classes.Count * plan.Count, index =>
        {
            var (row, column) = (index / plan.Count, index % plan.Count);
            var panel = plan.Render(row, column);
            sheet.Paste(column, row, panel, plan.Harsh
                ? HarshCamera.Spoil(panel.Rgb, panel.WidthPx, panel.HeightPx, new Random(plan.FirstSeed + column))
                : panel.Rgb);
        });
        File.WriteAllBytes(file, sheet.EncodePng());
    }

    private static void WriteFolder(Plan plan, string folder)
    {
        Directory.CreateDirectory(folder);
        var labels = new string[plan.Classes.Count * plan.Count];
        var truths = new string[labels.Length];
        Parallel.For(0, labels.Length, index =>
        {
            var seed = plan.FirstSeed + (index % plan.Count);
            var panel = plan.Render(index / plan.Count, index % plan.Count);
            var name = $"{panel.VisualClass}-{seed}";
            File.WriteAllBytes(Path.Combine(folder, name + ".jpg"), RenderedPhotos.Jpeg(panel, seed, plan.Harsh, plan.Look));
            var mask = WriteMask(folder, name + "-mask.png", panel, panel.Mask);
            var second = WriteMask(folder, name + "-mask2.png", panel, panel.SecondMask);
            labels[index] = $"{name}.jpg,{panel.VisualClass},{name}";
            truths[index] = JsonSerializer.Serialize(
                new
                {
                    File = name + ".jpg",
                    Seed = seed,
                    panel.VisualClass,
                    panel.SecondClass,
                    panel.WidthPx,
                    panel.HeightPx,
                    panel.MmPerPx,
                    Mask = mask,
                    SecondMask = second,
                    AreaFraction = panel.Mask.Count(flag => flag) / (double)panel.Mask.Length,
                    panel.Facts,
                },
                Json);
        });
        File.WriteAllLines(Path.Combine(folder, LabelledFolder.DefaultLabels), ["file,label,group", .. labels]);
        File.WriteAllLines(Path.Combine(folder, TruthFile), truths);
    }

    // White where the fault shows; no file where none does.
    private static string? WriteMask(string folder, string name, DemoPanel panel, bool[] mask)
    {
        if (!mask.Contains(true))
        {
            return null;
        }

        byte[] rgb = [.. mask.SelectMany(flag => Enumerable.Repeat(flag ? byte.MaxValue : byte.MinValue, 3))];
        File.WriteAllBytes(Path.Combine(folder, name), PhotoEncoder.EncodePng(rgb, panel.WidthPx, panel.HeightPx));
        return name;
    }

    private sealed record Plan(
        IReadOnlyList<string> Classes, int FirstSeed, int Count, bool Harsh, PanelLook Look, string? Second)
    {
        public DemoPanel Render(int row, int column) => RenderedPhotos.Panel(Classes[row], FirstSeed + column, Look, Second);
    }
}
