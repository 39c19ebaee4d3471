using CoatScan.Findings;

namespace CoatScan.ReportsTests;

public sealed class ClaimOverviewTests
{
    private static readonly SheetWords Words = SheetWords.English;

    private static readonly FindingSubject Door = Samples.FullSubject();

    private static FindingSubject Sound => new("roof.jpg", Samples.Full() with
    {
        Panel = "roof",
        Verdict = Verdict.Sound,
        Claim = ClaimSheet.None,
    }, []);

    [Fact]
    public void Parties_names_each_panel_with_what_speaks_for_and_against_but_no_sound_one()
    {
        var text = Html(ClaimOverview.Parties([Door, Sound], Words));

        Assert.Contains("left door", text, StringComparison.Ordinal);
        Assert.Contains("Workmanship of the painter", text, StringComparison.Ordinal);
        Assert.Contains("Repaint proven", text, StringComparison.Ordinal);
        Assert.Contains("Both sides alike", text, StringComparison.Ordinal);
        Assert.DoesNotContain("roof", text, StringComparison.Ordinal);
        Assert.Empty(ClaimOverview.Parties([Sound], Words));
    }

    [Fact]
    public void Dates_says_what_fits_and_what_does_not()
    {
        var text = Html(ClaimOverview.Dates([Door, Sound], Words));

        Assert.Contains("The dates do not fit.", text, StringComparison.Ordinal);
        Assert.Contains("Kept outdoors.", text, StringComparison.Ordinal);
        Assert.Contains("Said to be of last week.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void Questions_come_once_with_the_panels_that_they_are_about()
    {
        var text = Html(ClaimOverview.Questions([Door, Door, Sound], Words));

        Assert.Single(text.Split("When did you first see it?")[1..]);
        Assert.Contains("(left door)", text, StringComparison.Ordinal);
        Assert.Empty(ClaimOverview.Questions([Sound], Words));
    }

    [Fact]
    public void PhotoLog_tells_quality_capture_time_and_where_a_picture_was_before()
    {
        var earlier = new EarlierPicture("findings/old", new DateTimeOffset(2025, 4, 3, 0, 0, 0, TimeSpan.Zero), new string('e', 64), SameBytes: true, 0, "2025-04-01T08:00:00");
        var photo = Door.Finding.Photos[0] with { SeenBefore = [earlier] };
        var subject = Door with { Finding = Door.Finding with { Photos = [photo, Door.Finding.Photos[1]] } };

        var text = Html(ClaimOverview.PhotoLog([subject], Words));

        Assert.Contains(photo.Sha256[..16], text, StringComparison.Ordinal);
        Assert.Contains("2026-05-01T10:00:00", text, StringComparison.Ordinal);
        Assert.Contains("The same file was in a finding of 2025-04-03 (findings/old; taken: 2025-04-01T08:00:00).", text, StringComparison.Ordinal);
        Assert.Contains("No scale; Not sharp", text, StringComparison.Ordinal);
        Assert.Contains("not written in the photo", text, StringComparison.Ordinal);
        Assert.Contains("Not in an earlier finding.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Twice", text, StringComparison.Ordinal);
        Assert.Contains("Twice in this log.", Html(ClaimOverview.PhotoLog([subject, subject], Words)), StringComparison.Ordinal);
    }

    private static string Html(IEnumerable<Block> blocks) => HtmlWriter.Fragment(blocks);
}
