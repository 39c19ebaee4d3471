namespace CoatScan.Service.Batches;

/// <summary>Photos of one panel in a folder of vehicles.</summary>
/// <param name="Vehicle">Name of the vehicle's folder.</param>
/// <param name="Panel">Name of the panel's folder; empty for a photo that lies in the vehicle's folder itself.</param>
/// <param name="Photos">Places of its photos in the list of paths, 1 to 12.</param>
public sealed record FolderPanel(string Vehicle, string Panel, IReadOnlyList<int> Photos);

/// <summary>
/// Reads vehicles and panels from the paths of photos: one folder a vehicle. A photo that lies in it is a panel of its own; a folder
/// in it is one panel, and all photos below are photos of that panel, at most 12 together.
/// </summary>
public static class FolderPanels
{
    private const int MostPhotosOfPanel = 12;

    /// <summary>The panels, in the order of their first photos.</summary>
    /// <param name="paths">Paths below the folder, parts separated by '/'; those of one panel come together.</param>
    /// <exception cref="ArgumentException">A path has no vehicle's folder.</exception>
    public static IReadOnlyList<FolderPanel> Of(IReadOnlyList<string> paths)
    {
        ArgumentNullException.ThrowIfNull(paths);
        var panels = new List<FolderPanel>();
        for (var place = 0; place < paths.Count; place++)
        {
            var parts = paths[place].Split('/');
            if (parts.Length < 2)
            {
                throw new ArgumentException($"{paths[place]} lies in no vehicle's folder.", nameof(paths));
            }

            var (vehicle, panel) = (parts[0], parts.Length > 2 ? parts[1] : "");
            if (panel.Length > 0 && panels is [.., var last] && last.Vehicle == vehicle && last.Panel == panel
                && last.Photos.Count < MostPhotosOfPanel)
            {
                panels[^1] = last with { Photos = [.. last.Photos, place] };
            }
            else
            {
                panels.Add(new FolderPanel(vehicle, panel, [place]));
            }
        }

        return panels;
    }
}
