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
        Assert.Contains("2026-05-01 10:00:00", text, StringComparison.Ordinal);
        Assert.Contains("The same file was in a finding of 2025-04-03 (findings/old; taken: 2025-04-01 08:00:00).", text, StringComparison.Ordinal);
        Assert.Contains("No scale; Not sharp", text, StringComparison.Ordinal);
        Assert.Contains("not written in the photo", text, StringComparison.Ordinal);
        Assert.Contains("Not in an earlier finding.", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Twice", text, StringComparison.Ordinal);
        Assert.Contains("Twice in this log.", Html(ClaimOverview.PhotoLog([subject, subject], Words)), StringComparison.Ordinal);
    }

    [Fact]
    public void PhotoLog_says_once_what_is_the_same_for_all_photos_and_beside_each_what_is_not()
    {
        var text = Html(ClaimOverview.PhotoLog([Door], Words));

        Assert.Contains("Color: ", text, StringComparison.Ordinal);
        Assert.Single(text.Split("color left as the camera balanced it")[1..]);
        Assert.Single(text.Split("Not in an earlier finding")[1..]);
        Assert.Contains("0.5 mm per pixel from the card", text, StringComparison.Ordinal);
        Assert.All(Door.Finding.Photos, photo => Assert.Contains(photo.Sha256, text, StringComparison.Ordinal));
    }

    [Fact]
    public void Parties_without_reasons_stand_in_one_row_a_panel_and_equal_dates_in_one_row()
    {
        var bare = Door.Finding.Parties.Select(one => one with { For = [], Against = [] }).ToList();
        FindingSubject[] subjects =
        [
            Door with { Finding = Door.Finding with { Parties = bare } },
            Door with { Finding = Door.Finding with { Parties = bare, Panel = "hood" } },
        ];

        var parties = Assert.Single(ClaimOverview.Parties(subjects, Words).OfType<Table>());
        var dates = Assert.Single(ClaimOverview.Dates(subjects, Words).OfType<Table>());

        Assert.Equal(["left door", "hood"], parties.Rows.Select(row => row[0].Value));
        Assert.Contains("Workmanship of the painter", parties.Rows[0][1].Value, StringComparison.Ordinal);
        Assert.Equal("left door, hood", Assert.Single(dates.Rows)[0].Value);
    }

    private static string Html(IEnumerable<Block> blocks) => HtmlWriter.Fragment(blocks);
}
