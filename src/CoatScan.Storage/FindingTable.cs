using CoatScan.Findings;
using CoatScan.Storage.Rows;
using Microsoft.EntityFrameworkCore;

namespace CoatScan.Storage;

/// <summary>The stored findings.</summary>
internal static class FindingTable
{
    /// <exception cref="CoatScanException">The name is malformed.</exception>
    /// <exception cref="ArgumentException">The time has an offset, or a number is NaN or infinite.</exception>
    public static FindingRow RowOf(Finding finding)
    {
        if (finding.CreateTime.Offset != TimeSpan.Zero)
        {
            throw new ArgumentException("The create time of a finding is in UTC.", nameof(finding));
        }

        return new FindingRow
        {
            Id = FindingName.IdOf(finding.Name),
            CreateTimeTicks = finding.CreateTime.UtcTicks,
            Verdict = finding.Verdict.ToString(),
            Panel = finding.Panel,
            ExternalRef = finding.ExternalRef,
            TopCondition = finding.Conditions.Count == 0 ? null : finding.Conditions[0].Condition,
            Document = FindingDocument.Write(finding),
        };
    }

    /// <summary>What recognizes the photos of a finding when they come again.</summary>
    public static IEnumerable<FindingPhotoRow> PhotoRowsOf(Finding finding, FindingRow row) =>
        finding.Photos.Select((photo, index) => new FindingPhotoRow
        {
            FindingId = row.Id,
            PhotoIndex = index,
            Sha256 = photo.Sha256,
            PerceptualHash = (long?)photo.PictureHash,
            CaptureTime = photo.CaptureTime,
            CreateTimeTicks = row.CreateTimeTicks,
        });

    public static async Task<Finding?> FindAsync(
        FindingContext context, string id, CancellationToken cancellationToken)
    {
        var document = await context.Findings.AsNoTracking()
            .Where(row => row.Id == id)
            .Select(row => row.Document)
            .SingleOrDefaultAsync(cancellationToken);
        return document is null ? null : FindingDocument.Read(document);
    }

    public static async Task<IReadOnlyList<Finding>> ListOfReferenceAsync(
        FindingContext context, string externalRef, int most, CancellationToken cancellationToken)
    {
        var documents = await context.Findings.AsNoTracking()
            .Where(row => row.ExternalRef == externalRef)
            .OrderByDescending(row => row.CreateTimeTicks)
            .ThenByDescending(row => row.Id)
            .Take(most)
            .Select(row => row.Document)
            .ToListAsync(cancellationToken);
        return [.. documents.Select(FindingDocument.Read)];
    }

    /// <summary>One page, by keyset: the next page starts behind a place, so that inserts and deletes shift nothing.</summary>
    public static async Task<FindingPage> ReadPageAsync(
        FindingContext context, int size, PageToken? start, DateTimeOffset now, CancellationToken cancellationToken)
    {
        var rows = context.Findings.AsNoTracking();
        if (start is { } last)
        {
            // The first half lets SQLite seek in the index; it has no use for an OR.
            rows = rows.Where(row => row.CreateTimeTicks <= last.Place
                && (row.CreateTimeTicks < last.Place || string.Compare(row.Id, last.Id) < 0));
        }

        // One more than the page tells whether there is a next one.
        var found = await rows
            .OrderByDescending(row => row.CreateTimeTicks)
            .ThenByDescending(row => row.Id)
            .Take(size + 1)
            .Select(row => new { row.CreateTimeTicks, row.Id, row.Document })
            .ToListAsync(cancellationToken);
        var page = found.Take(size).ToList();
        var nextPageToken = found.Count > size ? new PageToken(page[^1].CreateTimeTicks, page[^1].Id).Write(now) : "";
        return new FindingPage(page.ConvertAll(row => FindingDocument.Read(row.Document)), nextPageToken);
    }

    /// <summary>The tenants that have findings from before a time: what housekeeping has to go through.</summary>
    public static Task<List<string>> ListTenantsOlderAsync(
        FindingContext context, DateTimeOffset time, CancellationToken cancellationToken)
    {
        var ticks = time.UtcTicks;
        return context.Findings.IgnoreQueryFilters()
            .Where(row => row.CreateTimeTicks < ticks)
            .Select(row => row.Tenant)
            .Distinct()
            .ToListAsync(cancellationToken);
    }

    /// <summary>The oldest findings from before a time, as ids.</summary>
    public static Task<List<string>> ListOlderAsync(
        FindingContext context, DateTimeOffset time, int count, CancellationToken cancellationToken)
    {
        var ticks = time.UtcTicks;
        return context.Findings
            .Where(row => row.CreateTimeTicks < ticks)
            .OrderBy(row => row.CreateTimeTicks)
            .ThenBy(row => row.Id)
            .Take(count)
            .Select(row => row.Id)
            .ToListAsync(cancellationToken);
    }

    /// <summary>Deletes findings together with the request keys that lead to them and what recognizes their photos.</summary>
    /// <returns>How many findings there were.</returns>
    public static async Task<int> DeleteAsync(
        FindingContext context, IReadOnlyList<string> ids, CancellationToken cancellationToken)
    {
        await RequestKeyTable.ForgetFindingsAsync(context, ids, cancellationToken);
        await context.FindingPhotos.Where(row => ids.Contains(row.FindingId)).ExecuteDeleteAsync(cancellationToken);
        return await context.Findings.Where(row => ids.Contains(row.Id)).ExecuteDeleteAsync(cancellationToken);
    }
}
