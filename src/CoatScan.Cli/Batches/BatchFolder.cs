using CoatScan.Cli.Photos;
using CoatScan.Service.Batches;

namespace CoatScan.Cli.Batches;

/// <summary>
/// Reads the folder of a batch: one subfolder a vehicle. A photo that lies in it is a panel of its own; a subfolder of it is
/// one panel, and all photos below are photos of that panel.
/// </summary>
internal static class BatchFolder
{
    private const int LongestVehicle = 128;
    private const int LongestPanel = 64;

    /// <summary>The panels, by ordinal order of their paths.</summary>
    /// <exception cref="CommandException">There is no such folder, no photo in it, or a photo outside of all vehicles.</exception>
    public static IReadOnlyList<PanelPhotos> Read(string folder)
    {
        if (!Directory.Exists(folder))
        {
            throw CommandException.Usage($"There is no folder '{folder}'.");
        }

        var root = Path.GetFullPath(folder);
        var places = new List<PhotoPlace>();
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

            Check(parts[0], LongestVehicle);
            Check(parts.Length > 2 ? parts[1] : "", LongestPanel);
            places.Add(place with { Name = below });
        }

        if (outside.Count > 0)
        {
            throw CommandException.Usage(
                $"'{outside[0]}' lies in no vehicle's folder. Give each vehicle a folder in '{folder}'.");
        }

        if (places.Count == 0)
        {
            throw CommandException.Usage($"There are no photos in '{folder}'. Give each vehicle a folder in it.");
        }

        // Photos come sorted by path, so those of one panel come together.
        return
        [
            .. FolderPanels.Of([.. places.Select(place => place.Name)])
                .Select(panel => new PanelPhotos(panel.Vehicle, panel.Panel, [.. panel.Photos.Select(place => places[place])])),
        ];
    }

    private static void Check(string name, int longest)
    {
        if (name.Length > longest)
        {
            throw CommandException.Usage(
                $"The folder name '{name}' has {name.Length} characters; at most {longest} are allowed.");
        }
    }
}
