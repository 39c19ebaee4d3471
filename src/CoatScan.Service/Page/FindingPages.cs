using CoatScan.Diagnosis;
using CoatScan.Findings;
using CoatScan.Reports;
using CoatScan.Service.Mapping;
using CoatScan.Service.Options;
using CoatScan.Service.Photos;
using CoatScan.Storage;
using CoatScan.Storage.Photos;
using Microsoft.AspNetCore.WebUtilities;

namespace CoatScan.Service.Page;

/// <summary>One panel: photos in, finding out, answers in, finding again.</summary>
internal sealed class FindingPages(
    PageWriter writer,
    PhotoReceiver receiver,
    PhotoStore photos,
    FindingStore store,
    KnowledgeBase knowledge,
    Questions questions,
    FactsChange change,
    PanelJudge judge)
{
    private const int RecentFindings = 12;
    private const int MostPhotos = AnalysisOptions.MaxPanelPhotoCount;

    /// <summary>The first page: the form, and what was found last.</summary>
    public async Task HomeAsync(HttpContext http)
    {
        var recent = await store.ListAsync(RecentFindings, "", http.RequestAborted).ConfigureAwait(false);
        var context = PageWriter.ContextOf(http);
        await writer.SendAsync<Views.HomeView>(http, context.Words.HomeTitle, new()
        {
            [nameof(Views.HomeView.Recent)] = recent.Findings,
            [nameof(Views.HomeView.Reference)] = http.Request.Query["reference"].ToString(),
        }).ConfigureAwait(false);
    }

    /// <summary>Takes photos and what is known, and leads to the finding.</summary>
    public async Task CreateAsync(HttpContext http)
    {
        var form = await PhotoForm.ReadAsync(http, receiver).ConfigureAwait(false);
        var facts = new PanelFacts { Panel = form["panel"], ExternalRef = form["reference"] };
        var names = Names(form);
        if (form.Refused.Count > 0)
        {
            await TellRefusedAsync(http, form, names, facts).ConfigureAwait(false);
            return;
        }

        CheckCount(http, names.Count);
        var finding = await judge.JudgeAsync(names, facts, before: null, http.RequestAborted).ConfigureAwait(false);
        Lead(http, finding, before: null, []);
    }

    /// <summary>Shows a finding.</summary>
    public async Task ShowAsync(HttpContext http)
    {
        var finding = await FindAsync(http).ConfigureAwait(false);
        var context = PageWriter.ContextOf(http);
        var skipped = Skipped(http.Request.Query["skip"].ToString());
        var model = new FindingModel(finding, new FindingParts(await SubjectAsync(finding, http.RequestAborted).ConfigureAwait(false), context.Sheets, PageRoutes.Guide))
        {
            Id = IdOf(finding),
            Questions = finding.Facts is null ? [] : questions.Of(finding, skipped, context.Sheets.Trade),
            Skipped = [.. skipped.Where(knowledge.Tests.ContainsKey).Select(id => (id, questions.NameOf(id, context.Sheets.Trade)))],
            Before = await SentenceBeforeAsync(http, context).ConfigureAwait(false),
            Said = [.. Said(finding.Facts, context.Sheets.Trade)],
            Sayable = [.. knowledge.Evidence.Values.GroupBy(term => term.Group)
                .Select(group => (group.Key, (IReadOnlyList<(string, string)>)[.. group.Select(term => (term.Id, context.Sheets.Trade.Say(term.Text)))]))],
            Paper = PageLanguage.PaperOf(http.Request),
            CanJudgeAgain = finding.Facts is not null,
        };
        await writer.SendAsync<Views.FindingView>(
            http, model.Parts.Title, new() { [nameof(Views.FindingView.Model)] = model }).ConfigureAwait(false);
    }

    /// <summary>Takes an answer, readings or photos more, and leads to the finding that they give.</summary>
    public async Task AnswerAsync(HttpContext http)
    {
        var before = await FindAsync(http).ConfigureAwait(false);
        var form = await PhotoForm.ReadAsync(http, receiver).ConfigureAwait(false);
        var skipped = Skipped(form["skip"]);
        if (form["aside"] is { Length: > 0 } aside)
        {
            Lead(http, before, before: null, [.. skipped, aside]);
            return;
        }

        var facts = before.Facts ?? throw new CoatScanException(
            ErrorReason.FieldInvalid, $"{before.Name} did not keep what was known; judge its photos anew.", "name");
        List<string> names = [.. before.Photos.Select(photo => PhotoName.Of(photo.Sha256)), .. Names(form)];
        names = [.. names.Distinct()];
        if (form.Refused.Count > 0)
        {
            throw form.Refused[0].Refusal;
        }

        CheckCount(http, names.Count, least: 0);
        facts = FactsChange.With(facts, form, PageWriter.ContextOf(http).Words);
        facts = FactsChange.Without(facts, [.. form.All("remove")]);
        foreach (var said in form.All("answer").Where(id => id.Length > 0))
        {
            facts = change.With(facts, said, form["saidBy"]);
        }

        var finding = await judge.JudgeAsync(names, facts, before, http.RequestAborted).ConfigureAwait(false);
        Lead(http, finding, before, skipped);
    }

    /// <summary>A sheet of the finding, as a page to print or as PDF.</summary>
    public async Task PrintAsync(HttpContext http, FindingPaper paper)
    {
        var finding = await FindAsync(http).ConfigureAwait(false);
        var words = PageWriter.ContextOf(http).Sheets;
        var subject = await PrintedAsync(finding, http.RequestAborted).ConfigureAwait(false);
        var sheet = paper switch
        {
            FindingPaper.Note => CustomerNote.Of(subject, words),
            FindingPaper.JobCard => JobCard.Of(subject, words),
            _ => FindingSheet.Of(subject, words, SheetAnswer.GuideFor(http.Request)),
        };
        await SheetAnswer.SendAsync(http, sheet, finding.CreateTime).ConfigureAwait(false);
    }

    /// <summary>A finding with the addresses of its pictures.</summary>
    public async Task<FindingSubject> SubjectAsync(Finding finding, CancellationToken cancellationToken)
    {
        var pictures = new List<SheetPhoto>();
        foreach (var photo in finding.Photos)
        {
            if (await photos.FindAsync(photo.Sha256, cancellationToken).ConfigureAwait(false) is not null)
            {
                pictures.Add(SheetPhoto.At(photo, PageRoutes.Picture(photo.Sha256)));
            }
        }

        return new(NameOf(finding), finding, pictures);
    }

    /// <summary>A finding with its pictures, for a sheet that needs no other file.</summary>
    public async Task<FindingSubject> PrintedAsync(Finding finding, CancellationToken cancellationToken)
    {
        var pictures = new List<SheetPhoto>();
        foreach (var photo in finding.Photos)
        {
            if (await photos.FindAsync(photo.Sha256, cancellationToken).ConfigureAwait(false) is { } stored)
            {
                pictures.Add(await Task.Run(() => SheetPhoto.Of(photos.Load(stored), cancellationToken), cancellationToken).ConfigureAwait(false));
            }
        }

        return new(NameOf(finding), finding, pictures);
    }

    /// <summary>The part of a finding's name that stands in addresses.</summary>
    public static string IdOf(Finding finding) => finding.Name[(finding.Name.IndexOf('/', StringComparison.Ordinal) + 1)..];

    /// <summary>A finding by the names of its photos.</summary>
    public static string NameOf(Finding finding) => finding.Photos.Count > 0
        ? string.Join(", ", finding.Photos.Select(photo => photo.DisplayName.Length > 0 ? photo.DisplayName : photo.Sha256[..8]))
        : finding.Name;

    private Task<Finding> FindAsync(HttpContext http) =>
        store.GetAsync(ResourceNames.CheckFinding($"findings/{http.Request.RouteValues["id"]}"), http.RequestAborted);

    private IEnumerable<(string Id, string Text, string By)> Said(PanelFacts? facts, TradeWords words) => facts is null
        ? []
        : facts.Evidence.Select(id => (id, TextOf(id, words), ""))
            .Concat(facts.Statements.Select(one => (one.Evidence, TextOf(one.Evidence, words), one.SaidBy)));

    private string TextOf(string id, TradeWords words) => knowledge.Evidence.TryGetValue(id, out var term) ? words.Say(term.Text) : id;

    private async Task<string> SentenceBeforeAsync(HttpContext http, PageContext context)
    {
        if (http.Request.Query["from"].ToString() is not { Length: > 0 } id)
        {
            return "";
        }

        try
        {
            var before = await store.GetAsync(ResourceNames.CheckFinding($"findings/{id}"), http.RequestAborted).ConfigureAwait(false);
            return new FindingParts(new(NameOf(before), before, []), context.Sheets, "").Sentence;
        }
        catch (CoatScanException gone) when (gone.Reason is ErrorReason.FindingNotFound or ErrorReason.FieldInvalid)
        {
            // It was deleted, or somebody wrote into the address: nothing to compare with.
            return "";
        }
    }

    private async Task TellRefusedAsync(HttpContext http, PhotoForm form, List<string> names, PanelFacts facts)
    {
        var context = PageWriter.ContextOf(http);
        await writer.SendAsync<Views.RefusedView>(
            http,
            context.Words.RefusedPhotos,
            new()
            {
                [nameof(Views.RefusedView.Refused)] = form.Refused.Select(one => (one.FileName, RefusalText.Of(one.Refusal, context).Text)).ToList(),
                [nameof(Views.RefusedView.Names)] = names,
                [nameof(Views.RefusedView.Facts)] = facts,
            },
            StatusCodes.Status400BadRequest).ConfigureAwait(false);
    }

    private static List<string> Names(PhotoForm form) =>
        [.. form.Photos.Select(one => one.Photo.Name).Concat(form.All("stored")).Distinct()];

    private static void CheckCount(HttpContext http, int count, int least = 1)
    {
        if (count < least || count > MostPhotos)
        {
            var words = PageWriter.ContextOf(http).Words;
            throw new CoatScanException(
                ErrorReason.PhotoCountOutOfRange,
                count == 0 ? words.NoPhotos : words.Fill(words.TooManyPhotos, count, MostPhotos),
                "photos",
                new Dictionary<string, string> { ["value"] = $"{count}", ["limit"] = $"{MostPhotos}" });
        }
    }

    private static IReadOnlyList<string> Skipped(string text) =>
        [.. text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Distinct()];

    private static void Lead(HttpContext http, Finding finding, Finding? before, IReadOnlyList<string> skipped)
    {
        var query = new Dictionary<string, string?>();
        if (before is not null)
        {
            query["from"] = IdOf(before);
        }

        if (skipped.Count > 0)
        {
            query["skip"] = string.Join(',', skipped.Distinct());
        }

        http.Response.StatusCode = StatusCodes.Status303SeeOther;
        http.Response.Headers.Location = QueryHelpers.AddQueryString($"/findings/{IdOf(finding)}", query);
    }
}
