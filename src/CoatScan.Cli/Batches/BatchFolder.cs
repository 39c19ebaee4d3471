using CoatScan.Cli.Photos;

namespace CoatScan.Cli.Batches;

/// <summary>
/// Reads the folder of a batch: one subfolder a vehicle. A photo that lies in it is a panel of its own; a subfolder of it is
/// one panel, and all photos below are photos of that panel.
/// </summary>
internal static class BatchFolder
{
    private const int MostPhotosOfPanel = 12;
    private const int LongestVehicle = 128;
    private const int LongestPanel = 64;

    /// <summary>The panels, by ordinal order of their paths.</summary>
    /// <exception cref="CommandException">There is no such folder, no photo in it, or a photo outside of all vehicles.</exception>
    public static IReadOnlyList<PanelPhotos> Read(string folder)
    {
        if (!Directory.Exists(folder))
        {
            throw CommandException.Usage($"There is no folder {folder}.");
        }

        var root = Path.GetFullPath(folder);
        var panels = new List<PanelPhotos>();
        var outside = new List<string>();
        foreach (var place in PhotoSearch.Find([root]).Where(place => place.Path != root))
        {
            var below = Path.GetRelativePath(root, place.Path).Replace(Path.DirectorySeparatorChar, '/');
            var parts = below.Split('/');
            if (parts.Length == 1 && place.Error is null)
            {
                outside.Add(below);
                continue;
            }

            Add(panels, Checked(parts[0], LongestVehicle), parts.Length > 2 ? Checked(parts[1], LongestPanel) : "", place with { Name = below });
        }

        return outside.Count > 0
            ? throw CommandException.Usage(
                $"{outside[0]} lies in no vehicle's folder. Give each vehicle a folder in {folder}.")
            : panels.Count > 0
                ? panels
                : throw CommandException.Usage($"There are no photos in {folder}. Give each vehicle a folder in it.");
    }

    private static void Add(List<PanelPhotos> panels, string vehicle, string panel, PhotoPlace place)
    {
        // Photos come sorted by path, so those of one panel come together.
        if (panel.Length > 0 && panels is [.., var last] && last.Vehicle == vehicle && last.Panel == panel
            && last.Photos.Count < MostPhotosOfPanel)
        {
            panels[^1] = last with { Photos = [.. last.Photos, place] };
        }
        else
        {
            panels.Add(new PanelPhotos(vehicle, panel, [place]));
        }
    }

    private static string Checked(string name, int longest) => name.Length <= longest
        ? name
        : throw CommandException.Usage(
            $"The folder name {name} has {name.Length} characters; at most {longest} are allowed.");
}
