using System.Globalization;
using CoatScan.Findings;

namespace CoatScan.Reports;

/// <summary>What several panels of one vehicle say together: who answers, whether dates fit, what to ask, and a log of the photos.</summary>
public static class ClaimOverview
{
    private const double WorthNaming = 0.05;
    private const string SoundCondition = "sound";
    private const int FirstFact = 3;

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
        if (parties.Count == 0)
        {
            return [];
        }

        // Without reasons the parties of a panel stand in one row.
        List<string[]> rows = parties.TrueForAll(one => one.Party.For.Count + one.Party.Against.Count == 0)
            ? [.. parties.GroupBy(one => one.Subject).Select(group => new[]
            {
                group.Key, string.Join("; ", group.Select(one => $"{Name(one.Party)} {words.Percent(one.Party.Probability)}")), "", "", "",
            })]
            : [.. parties.Select(one => new[]
            {
                one.Subject,
                Name(one.Party),
                words.Percent(one.Party.Probability),
                Phrases.Capital(string.Join("; ", one.Party.For)),
                Phrases.Capital(string.Join("; ", one.Party.Against)),
            })];
        return
        [
            new Heading(2, words.ClaimWho),
            Table(
                words.PartiesCaption,
                [(words.Panel, 1.4), (words.Party, 1.7), (words.Share, 0.7), (words.SpeaksFor, 2.4), (words.SpeaksAgainst, 2.4)],
                rows),
        ];

        static string Name(PartyShare party) => Phrases.Capital(party.Text.Length > 0 ? party.Text : Phrases.OfId(party.Party));
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
            })
            .GroupBy(row => string.Join('\n', row[1..]))
            .Select(alike => (string[])[string.Join(", ", alike.Select(row => row[0])), .. alike.First()[1..]])];
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
        if (photos.Count == 0)
        {
            return [];
        }

        List<(string Head, double Share)> columns =
        [
            (words.Number, 0.5), (words.Panel, 1.3), (words.Photo, 4),
            (words.Taken, 1.4), (words.Scale, 1.3), (words.ColorBalance, 1.4), (words.Quality, 1.4), (words.SeenBefore, 2.2),
        ];
        List<IReadOnlyList<string>> rows =
            [.. photos.Select((one, at) => Row(one.Subject, one.Photo, at + 1, photos.Count(other => other.Photo.Sha256 == one.Photo.Sha256) > 1, words))];

        // What is the same for all photos is said once, above.
        List<int> same = rows.Count == 1 ? [] : [.. Enumerable.Range(FirstFact, columns.Count - FirstFact).Where(column => rows.TrueForAll(row => row[column] == rows[0][column]))];
        List<int> own = [.. Enumerable.Range(0, columns.Count).Except(same)];
        List<Text> ofAll = [.. same.SelectMany(column => new Text[] { Text.Bold(columns[column].Head + ": "), rows[0][column].TrimEnd('.') + ". " })];
        return
        [
            new Heading(2, words.PhotoLog),
            .. ofAll.Count > 0 ? [new Paragraph(Tone.Plain, [words.OfAllPhotos + " ", .. ofAll])] : Array.Empty<Block>(),
            new Table(
                words.PhotoLogCaption,
                [.. own.Select(column => columns[column])],
                [.. rows.Select(row => (IReadOnlyList<Text>)[.. own.Select(column => (Text)row[column])])]),
        ];
    }

    private static IReadOnlyList<string> Row(string panel, PhotoReport photo, int number, bool isTwice, SheetWords words) =>
    [
        number.ToString(CultureInfo.InvariantCulture),
        panel,
        string.Join(", ", new[]
        {
            ProvenanceSection.Name(photo),
            string.Create(CultureInfo.InvariantCulture, $"{photo.WidthPx} x {photo.HeightPx} px"),
            "SHA-256 " + photo.Sha256,
        }.Where(part => part.Length > 0)),
        photo.CaptureTime is { } time ? words.Format.CameraTime(time) : words.NoCaptureTime,
        ProvenanceSection.Scale(photo.Scale, words) is { Length: > 0 } scale ? scale : words.PhotoIssue(PhotoIssueCode.NoScale),
        words.WhiteBalance(photo.Color.Source),
        photo.Issues.Count == 0
            ? words.QualityGood
            : string.Join("; ", photo.Issues.Select(issue => words.PhotoIssue(issue.Code)).Distinct()),
        Seen(photo, isTwice, words),
    ];

    private static string Seen(PhotoReport photo, bool isTwice, SheetWords words) => string.Join(" ", new[]
    {
        isTwice ? words.SeenTwice : "",
        photo.SeenBefore is [var first, ..]
            ? words.Fill(
                first.SameBytes ? words.SeenSameBytes : words.SeenSamePicture,
                words.Format.Day(first.CreateTime),
                first.Finding,
                first.CaptureTime is { } taken ? words.Format.CameraTime(taken) : words.NoCaptureTime)
            : words.SeenNever,
    }.Where(part => part.Length > 0));

    private static bool HasFault(Finding finding) =>
        finding.Verdict is not (Verdict.NotAssessable or Verdict.Sound) && finding.Conditions is not [{ Condition: SoundCondition }, ..];
}
