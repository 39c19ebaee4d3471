using CoatScan.Cli.Photos;

namespace CoatScan.Cli.Batches;

/// <summary>The photos of one panel, as the folder has them.</summary>
/// <param name="Vehicle">Name of the vehicle's folder.</param>
/// <param name="Panel">Name of the panel's folder; empty for a photo that lies in the vehicle's folder itself.</param>
/// <param name="Photos">1 to 12 photos; their names are paths below the folder of the batch.</param>
internal sealed record PanelPhotos(string Vehicle, string Panel, IReadOnlyList<PhotoPlace> Photos)
{
    /// <summary>The panel as the user knows it.</summary>
    public string Name => Panel.Length > 0 ? $"{Vehicle}/{Panel}" : Photos[0].Name;
}
