using CoatScan.DemoPanels;

namespace CoatScan.Training.Commands;

/// <summary>Writes the demo photos that the first command of the README inspects.</summary>
internal static class RenderDemoCommand
{
    public static void Run(string[] words, TextWriter output)
    {
        var folder = new Arguments(words, ["out"]).Required("out");
        Directory.CreateDirectory(folder);
        var photos = DemoPhotoSet.Render();
        foreach (var photo in photos)
        {
            File.WriteAllBytes(Path.Combine(folder, photo.FileName), photo.Jpeg);
        }

        output.WriteLine($"{photos.Count} invented photos in '{folder}'");
    }
}
