using CoatScan.Findings;
using CoatScan.Inspection;

namespace CoatScan.InspectionTests;

public sealed class LookMemoryTests
{
    private int _looked;

    [Fact]
    public void Get_equal_bytes_and_scale_looks_once()
    {
        var memory = new LookMemory(4);

        var first = memory.Get(Photo(1, "a.jpg"), new() { MmPerPx = 0.2 }, Look);
        var second = memory.Get(Photo(1, "b.jpg"), new() { MmPerPx = 0.2 }, Look);

        Assert.Equal(1, _looked);
        Assert.Equal("a.jpg", first.Report.DisplayName);
        Assert.Equal("b.jpg", second.Report.DisplayName);
    }

    [Fact]
    public void Get_other_bytes_scale_or_distances_look_again()
    {
        var memory = new LookMemory(4);

        memory.Get(Photo(1), new() { MmPerPx = 0.2 }, Look);
        memory.Get(Photo(2), new() { MmPerPx = 0.2 }, Look);
        memory.Get(Photo(1), new() { MmPerPx = 0.3 }, Look);
        memory.Get(Photo(1), new(), Look);
        memory.Get(Photo(1), new() { MmPerPx = 0.2, ReflectedDistanceMm = 300, CameraDistanceMm = 500 }, Look);
        memory.Get(Photo(1), new() { MmPerPx = 0.2, ReflectedDistanceMm = 300, CameraDistanceMm = 600 }, Look);

        Assert.Equal(6, _looked);
    }

    [Fact]
    public void Get_over_capacity_forgets_the_oldest()
    {
        var memory = new LookMemory(2);
        memory.Get(Photo(1), new(), Look);
        memory.Get(Photo(2), new(), Look);
        memory.Get(Photo(3), new(), Look);
        Assert.Equal(2, memory.Count);

        memory.Get(Photo(3), new(), Look);
        Assert.Equal(3, _looked);
        memory.Get(Photo(1), new(), Look);
        Assert.Equal(4, _looked);
    }

    [Fact]
    public void Get_refused_photo_is_not_remembered()
    {
        var memory = new LookMemory(2);

        Assert.Throws<CoatScanException>(() => memory.Get(
            Photo(1), new(), _ => throw new CoatScanException(ErrorReason.PhotoUnreadable, "no photo")));

        Assert.Equal(0, memory.Count);
    }

    private static PhotoBytes Photo(byte content, string name = "") => new(new[] { content }, name, "photo");

    private PhotoLook Look(PhotoBytes photo)
    {
        _looked++;
        return new PhotoLook(
            new PhotoReport { Sha256 = "", WidthPx = 1, HeightPx = 1, DisplayName = photo.DisplayName }, Measurements: null!, Reading: null!);
    }
}
