using CoatScan.Findings;
using CoatScan.Inspection;

namespace CoatScan.InspectionTests;

public sealed class ZoneCheckTests
{
    private static readonly PhotoZone Good = new(0, 10, 10, 40, 40);

    public static TheoryData<PhotoZone, string, string> Refused => new()
    {
        { new(-1, 60, 10, 40, 40), "compareZones.second.photoIndex", "must be in [0, 1]; -1 came" },
        { new(2, 60, 10, 40, 40), "compareZones.second.photoIndex", "must be in [0, 1]; 2 came" },
        { new(0, -1, 10, 40, 40), "compareZones.second.xPx", "must be at least 0; -1 came" },
        { new(0, 60, -3, 40, 40), "compareZones.second.yPx", "must be at least 0; -3 came" },
        { new(0, 60, 10, 15, 40), "compareZones.second.widthPx", "must be at least 16; 15 came" },
        { new(0, 60, 10, 40, 0), "compareZones.second.heightPx", "must be at least 16; 0 came" },
        { new(1, 60, 10, 40, 40), "compareZones.second.photoIndex", "change from photo to photo" },
        { new(0, 49, 49, 40, 40), "compareZones.second", "must not overlap" },
    };

    [Theory]
    [MemberData(nameof(Refused))]
    public void Check_wrong_zone_is_refused_by_field_and_limit(PhotoZone zone, string field, string words)
    {
        var refusal = Assert.Throws<CoatScanException>(() => ZoneCheck.Check(new(Good, zone), photoCount: 2));

        Assert.Equal(ErrorReason.FieldInvalid, refusal.Reason);
        Assert.Equal(field, refusal.Field);
        Assert.Contains(words, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_zones_that_touch_are_taken() => ZoneCheck.Check(new(Good, new(0, 50, 10, 40, 40)), photoCount: 1);

    [Theory]
    [InlineData(61, 10, 40, 40, "compareZones.second.xPx", "must be in [0, 60]; 61 came")]
    [InlineData(60, 51, 40, 40, "compareZones.second.yPx", "must be in [0, 50]; 51 came")]
    [InlineData(60, 10, 101, 40, "compareZones.second.xPx", "is too large for the photo; 60 came")]
    [InlineData(60, 10, int.MaxValue, 40, "compareZones.second.xPx", "is too large for the photo; 60 came")]
    public void CheckInside_zone_that_reaches_out_is_refused(int x, int y, int width, int height, string field, string words)
    {
        var photo = new PhotoReport { Sha256 = "", WidthPx = 100, HeightPx = 90 };
        var refusal = Assert.Throws<CoatScanException>(
            () => ZoneCheck.CheckInside(new(Good, new(0, x, y, width, height)), photo));

        Assert.Equal(ErrorReason.FieldInvalid, refusal.Reason);
        Assert.Equal(field, refusal.Field);
        Assert.Contains(words, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void CheckInside_zone_up_to_the_border_is_taken() => ZoneCheck.CheckInside(
        new(Good, new(0, 60, 50, 40, 40)), new PhotoReport { Sha256 = "", WidthPx = 100, HeightPx = 90 });
}
