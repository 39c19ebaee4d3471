using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>A finding and what a sheet needs beside it.</summary>
/// <param name="Name">The photo, panel or case as its user knows it.</param>
/// <param name="Finding">The finding.</param>
/// <param name="Photos">Pictures at hand, in any order; each is put beside the photo of its digest. A photo without one is
/// listed without a picture.</param>
public sealed record FindingSubject(string Name, Finding Finding, IReadOnlyList<SheetPhoto> Photos)
{
    /// <summary>The panel if it has a name, else the name of the photo or case without its folder.</summary>
    public string Subject => Finding.Panel.Length > 0 ? Finding.Panel : Name[(Name.LastIndexOfAny(['/', '\\']) + 1)..];

    /// <summary>The picture of a photo; null if it is not at hand.</summary>
    public SheetPhoto? Picture(int photoIndex) =>
        photoIndex >= 0 && photoIndex < Finding.Photos.Count
            ? Photos.FirstOrDefault(one => one.Sha256 == Finding.Photos[photoIndex].Sha256)
            : null;
}
