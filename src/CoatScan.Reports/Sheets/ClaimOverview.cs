using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>What several panels of one vehicle say together: who answers, whether dates fit, what to ask, and a log of the photos.</summary>
public static class ClaimOverview
{
    private const double WorthNaming = 0.05;
    private const string SoundCondition = "sound";
    private const int DigestDigits = 16;

    /// <summary>Shares of the parties, panel by panel, with what speaks for and against each; nothing where no panel has a fault.</summary>
    public static IReadOnlyList<Block> Parties(IReadOnlyList<FindingSubject> subjects, SheetWords words)
    {
        ArgumentNullException.ThrowIfNull(subjects);
        ArgumentNullException.ThrowIfNull(words);
        var parties = subjects
            .Where(one => HasFault(one.Finding))
            .Select(one => FindingWords.In(one, words.Trade))
            .SelectMany(one => one.Finding.Parties
                .Where((party, rank) => rank == 0 || party.Probability >= WorthNaming)
                .Select(party => (one.Subject, Party: party)))
            .ToList();
        return parties.Count == 0 ? [] :
        [
            new Heading(2, words.ClaimWho),
            Table(
                words.PartiesCaption,
                [(words.Panel, 1.4), (words.Party, 1.7), (words.Share, 0.7), (words.SpeaksFor, 2.4), (words.SpeaksAgainst, 2.4)],
                [.. parties.Select(one => new[]
                {
                    one.Subject,
                    Phrases.Capital(one.Party.Text.Length > 0 ? one.Party.Text : Phrases.OfId(one.Party.Party)),
                    words.Percent(one.Party.Probability),
                    Phrases.Capital(string.Join("; ", one.Party.For)),
                    Phrases.Capital(string.Join("; ", one.Party.Against)),
                })]),
        ];
    }

    /// <summary>How each panel's condition comes about and whether what was said of the dates fits.</summary>
    public static IReadOnlyList<Block> Dates(IReadOnlyList<FindingSubject> subjects, SheetWords words)
    {
        ArgumentNullException.ThrowIfNull(subjects);
        ArgumentNullException.ThrowIfNull(words);
        List<string[]> rows = [.. subjects
            .Where(one => HasFault(one.Finding))
            .Select(one => FindingWords.In(one, words.Trade))
            .Select(one => new[]
            {
                one.Subject,
                Phrases.Capital(words.TimingClass(one.Finding.Timing.Class)),
                Phrases.Sentence(one.Finding.Claim.DatesText),
                Phrases.Sentence(string.Join("; ", one.Finding.Timing.Fits)),
                Phrases.Sentence(string.Join("; ", one.Finding.Timing.DoesNotFit)),
            })];
        return rows.Count == 0 ? [] :
        [
            new Heading(2, words.WhenItCame),
            Table(
                words.ClaimDatesCaption,
                [(words.Panel, 1.4), (words.ItComes, 1.6), (words.StatedDates, 2), (words.Fits, 2), (words.DoesNotFit, 2)],
                rows),
        ];
    }

    // A column that no row fills would only make the others narrow.
    private static Table Table(string caption, IReadOnlyList<(string Head, double Share)> columns, List<string[]> rows)
    {
        List<int> filled = [.. Enumerable.Range(0, columns.Count).Where(column => rows.Exists(row => row[column].Length > 0))];
        return new(
            caption,
            [.. filled.Select(column => columns[column])],
            [.. rows.Select(row => (IReadOnlyList<Text>)[.. filled.Select(column => (Text)row[column])])]);
    }

    /// <summary>Questions for the policyholder, each once, with the panels that they are about.</summary>
    public static IReadOnlyList<Block> Questions(IReadOnlyList<FindingSubject> subjects, SheetWords words)
    {
        ArgumentNullException.ThrowIfNull(subjects);
        ArgumentNullException.ThrowIfNull(words);
        var asked = subjects
            .SelectMany(one => one.Finding.Claim.Questions.Select(question => (Question: words.Trade.Say(question), one.Subject)))
            .GroupBy(one => one.Question, one => one.Subject)
            .ToList();
        return asked.Count == 0 ? [] :
        [
            new Heading(2, words.ClaimQuestions),
            new ItemList(true, [.. asked.Select(one => new Text[]
            {
                Phrases.Sentence(one.Key),
                one.Distinct().Count() < subjects.Count ? " (" + string.Join(", ", one.Distinct()) + ")" : "",
            })]),
        ];
    }

    /// <summary>Every photo with its quality and what speaks for or against it being what it is said to be: facts, no judgment.</summary>
    public static IReadOnlyList<Block> PhotoLog(IReadOnlyList<FindingSubject> subjects, SheetWords words)
    {
        ArgumentNullException.ThrowIfNull(subjects);
        ArgumentNullException.ThrowIfNull(words);
        var photos = subjects.SelectMany(one => one.Finding.Photos.Select(photo => (one.Subject, Photo: photo))).ToList();
        return photos.Count == 0 ? [] :
        [
            new Heading(2, words.PhotoLog),
            new Table(
                words.PhotoLogCaption,
                [(words.Number, 0.5), (words.Panel, 1.3), (words.Photo, 1.9), (words.Taken, 1.6), (words.Quality, 2), (words.SeenBefore, 2.2)],
                [.. photos.Select((one, at) => Row(one.Subject, one.Photo, at + 1, photos.Count(other => other.Photo.Sha256 == one.Photo.Sha256) > 1, words))]),
        ];
    }

    private static IReadOnlyList<Text> Row(string panel, PhotoReport photo, int number, bool isTwice, SheetWords words) =>
    [
        number.ToString(CultureInfo.InvariantCulture),
        panel,
        string.Join(", ", new[]
        {
            photo.DisplayName,
            string.Create(CultureInfo.InvariantCulture, $"{photo.WidthPx} x {photo.HeightPx} px"),
            "SHA-256 " + (photo.Sha256.Length > DigestDigits ? photo.Sha256[..DigestDigits] + "..." : photo.Sha256),
        }.Where(part => part.Length > 0)),
        photo.CaptureTime ?? words.NoCaptureTime,
        photo.Issues.Count == 0
            ? words.QualityGood
            : string.Join("; ", photo.Issues.Select(issue => words.PhotoIssue(issue.Code)).Distinct()),
        Seen(photo, isTwice, words),
    ];

    private static string Seen(PhotoReport photo, bool isTwice, SheetWords words) => string.Join(" ", new[]
    {
        isTwice ? words.SeenTwice : "",
        photo.SeenBefore is [var first, ..]
            ? SheetWords.Fill(
                first.SameBytes ? words.SeenSameBytes : words.SeenSamePicture,
                first.CreateTime.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                first.Finding,
                first.CaptureTime ?? words.NoCaptureTime)
            : words.SeenNever,
    }.Where(part => part.Length > 0));

    private static bool HasFault(Finding finding) =>
        finding.Verdict is not (Verdict.NotAssessable or Verdict.Sound) && finding.Conditions is not [{ Condition: SoundCondition }, ..];
}
