using System.Security.Cryptography;
using System.Text;
using CoatScan.Batches;
using CoatScan.Findings;
using CoatScan.Service.Batches;
using CoatScan.Service.Page.Words;
using CoatScan.Service.Photos;
using Microsoft.AspNetCore.WebUtilities;

namespace CoatScan.Service.Page;

/// <summary>Many vehicles: a folder in, all of them on one scale out, worst first, while they are still being graded.</summary>
internal sealed class LanePages(PageWriter writer, PhotoReceiver receiver, IBatchLedger ledger)
{
    private const int LanesShown = 50;
    private const int MostVehicles = 5000;
    private const int VehiclesAtOnce = 500;
    private const int ItemsAtOnce = 1000;
    private const int RefusedShown = 5;
    private const int LongestPanel = 64;
    private const int KeyLength = 40;

    /// <summary>All lanes, and the form for a new one.</summary>
    public async Task ListAsync(HttpContext http)
    {
        var lanes = await ledger.ListAsync(LanesShown, "", http.RequestAborted).ConfigureAwait(false);
        await writer.SendAsync<Views.LanesView>(
            http,
            PageWriter.ContextOf(http).Words.LanesTitle,
            new() { [nameof(Views.LanesView.Lanes)] = lanes.Rows }).ConfigureAwait(false);
    }

    /// <summary>Makes a lane. With photos in the form it is complete and grading begins; without, they follow vehicle by vehicle.</summary>
    public async Task CreateAsync(HttpContext http)
    {
        var form = await PhotoForm.ReadAsync(http, receiver).ConfigureAwait(false);
        var batch = await ledger.CreateAsync(null, Short(form["name"]), request: null, http.RequestAborted).ConfigureAwait(false);
        if (form.Photos.Count > 0)
        {
            await AddAsync(http, batch.Id, form).ConfigureAwait(false);
            await ledger.StartAsync(batch.Id, expectedVersion: null, http.RequestAborted).ConfigureAwait(false);
        }
        else if (form["follow"].Length == 0)
        {
            throw Nothing(http);
        }

        Lead(http, batch.Id, form.Refused);
    }

    /// <summary>Takes photos of a lane that is still open.</summary>
    public async Task AddAsync(HttpContext http)
    {
        var id = Id(http);
        var form = await PhotoForm.ReadAsync(http, receiver).ConfigureAwait(false);
        if (form.Photos.Count > 0)
        {
            await AddAsync(http, id, form).ConfigureAwait(false);
        }
        else if (form["follow"].Length == 0)
        {
            throw Nothing(http);
        }

        if (form["follow"].Length == 0)
        {
            await ledger.StartAsync(id, expectedVersion: null, http.RequestAborted).ConfigureAwait(false);
        }

        Lead(http, id, form.Refused);
    }

    /// <summary>Leads to a lane from the address of one of its forms.</summary>
    public async Task LeadBackAsync(HttpContext http)
    {
        var lane = await ledger.GetAsync(Id(http), http.RequestAborted).ConfigureAwait(false);
        Lead(http, lane.Id, []);
    }

    /// <summary>Begins grading.</summary>
    public Task StartAsync(HttpContext http) => ChangeAsync(http, ledger.StartAsync);

    /// <summary>Cancels what waits.</summary>
    public Task CancelAsync(HttpContext http) => ChangeAsync(http, ledger.CancelAsync);

    /// <summary>Puts what failed or was cancelled back in the queue.</summary>
    public Task RetryAsync(HttpContext http) => ChangeAsync(http, ledger.RetryAsync);

    /// <summary>Shows a lane.</summary>
    public async Task ShowAsync(HttpContext http)
    {
        var id = Id(http);
        var batch = await ledger.GetAsync(id, http.RequestAborted).ConfigureAwait(false);
        var all = await VehiclesAsync(id, http.RequestAborted).ConfigureAwait(false);
        _ = Enum.TryParse(http.Request.Query["show"], ignoreCase: true, out LaneFilter filter);
        filter = Enum.IsDefined(filter) ? filter : LaneFilter.All;
        var search = http.Request.Query["q"].ToString().Trim();
        var model = new LaneModel(
            batch,
            [.. all.Where(one => one.Panels.Count > 0 || batch.State == BatchState.Running)])
        {
            VehicleCount = all.Count,
            Filter = filter,
            Search = search,
            There = batch.State == BatchState.Open ? await ThereAsync(id, http.RequestAborted).ConfigureAwait(false) : new Dictionary<string, int>(),
            Refused = [.. http.Request.Query["refused"].Select(name => name ?? "")],
        };
        await writer.SendAsync<Views.LaneView>(
            http,
            NameOf(batch, PageWriter.ContextOf(http).Words),
            new() { [nameof(Views.LaneView.Model)] = model },
            refreshes: !batch.AtRest && batch.State != BatchState.Open).ConfigureAwait(false);
    }

    /// <summary>One vehicle of a lane; null if there is none of this name.</summary>
    public async Task<VehicleSummary?> VehicleAsync(string lane, string vehicle, CancellationToken cancellationToken) =>
        (await VehiclesAsync(lane, cancellationToken).ConfigureAwait(false)).FirstOrDefault(one => one.VehicleRef == vehicle);

    /// <summary>The vehicles of a lane, worst first.</summary>
    public async Task<List<VehicleSummary>> VehiclesAsync(string id, CancellationToken cancellationToken)
    {
        var all = new List<VehicleSummary>();
        var token = "";
        do
        {
            var page = await ledger.ListVehiclesAsync(id, VehiclesAtOnce, token, cancellationToken).ConfigureAwait(false);
            all.AddRange(page.Rows);
            token = page.NextPageToken;
        }
        while (token.Length > 0 && all.Count < MostVehicles);
        return all;
    }

    /// <summary>The panels of a lane, in the order in which they came.</summary>
    public async IAsyncEnumerable<BatchItem> ItemsAsync(
        string id, [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancellationToken)
    {
        var token = "";
        do
        {
            var page = await ledger.ListItemsAsync(id, [], ItemsAtOnce, token, cancellationToken).ConfigureAwait(false);
            foreach (var item in page.Rows)
            {
                yield return item;
            }

            token = page.NextPageToken;
        }
        while (token.Length > 0);
    }

    /// <summary>Name of a lane for people.</summary>
    public static string NameOf(Batch batch, PageWords words) =>
        batch.DisplayName.Length > 0 ? batch.DisplayName : words.Fill(words.LaneOf, words.Format.Minute(batch.CreateTime));

    /// <summary>Address of a vehicle of a lane.</summary>
    public static string Address(string lane, string vehicle) => $"/lanes/{lane}/vehicle?name={Uri.EscapeDataString(vehicle)}";

    /// <summary>Id of the lane of a request.</summary>
    public static string Id(HttpContext http) => http.Request.RouteValues["id"]?.ToString() ?? "";

    private async Task AddAsync(HttpContext http, string id, PhotoForm form)
    {
        var words = PageWriter.ContextOf(http).Words;
        var sent = form.Photos
            .Select(one => (Path: Below(one.FileName), one.Photo))
            .OrderBy(one => one.Path, StringComparer.Ordinal)
            .ToList();
        if (sent.FirstOrDefault(one => !one.Path.Contains('/', StringComparison.Ordinal)) is { Photo: not null } outside)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid, words.Fill(words.LaneOutside, outside.Path), "photos", new Dictionary<string, string> { ["path"] = outside.Path });
        }

        var items = FolderPanels.Of([.. sent.Select(one => one.Path)])
            .Select(panel => ToItem(panel, [.. panel.Photos.Select(place => sent[place])]))
            .ToList();
        foreach (var some in items.Chunk(ItemsAtOnce))
        {
            await ledger.AddItemsAsync(id, some, http.RequestAborted).ConfigureAwait(false);
        }
    }

    // Named after its content: the same photos in the same place, sent again, are the same item.
    private static NewItem ToItem(FolderPanel panel, IReadOnlyList<(string Path, Storage.Photos.StoredPhoto Photo)> photos)
    {
        Check(panel.Vehicle, BatchLimits.MaxVehicleRefLength);
        Check(panel.Panel, LongestPanel);
        var content = string.Join('\0', [panel.Vehicle, panel.Panel, .. photos.Select(one => $"{one.Path}\n{one.Photo.Sha256}")]);
        return new NewItem(
            Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(content)))[..KeyLength],
            panel.Vehicle,
            [.. photos.Select(one => one.Photo.Name).Distinct()],
            new PanelFacts { Panel = panel.Panel });
    }

    private static void Check(string folder, int longest)
    {
        if (folder.Length > longest)
        {
            throw new CoatScanException(
                ErrorReason.FieldInvalid,
                $"The folder name '{folder}' has {folder.Length} characters; at most {longest} are allowed.",
                "photos",
                new Dictionary<string, string> { ["value"] = $"{folder.Length}", ["limit"] = $"{longest}" });
        }
    }

    // A browser names the chosen folder first; what counts is below it.
    private static string Below(string path)
    {
        var clean = path.Replace('\\', '/').TrimStart('/');
        return clean[(clean.IndexOf('/', StringComparison.Ordinal) + 1)..];
    }

    private async Task<IReadOnlyDictionary<string, int>> ThereAsync(string id, CancellationToken cancellationToken)
    {
        var there = new Dictionary<string, int>(StringComparer.Ordinal);
        await foreach (var item in ItemsAsync(id, cancellationToken).ConfigureAwait(false))
        {
            there[item.Given.VehicleRef] = there.GetValueOrDefault(item.Given.VehicleRef) + item.Given.Photos.Count;
        }

        return there;
    }

    private static async Task ChangeAsync(HttpContext http, Func<string, long?, CancellationToken, Task<Batch>> change)
    {
        await change(Id(http), null, http.RequestAborted).ConfigureAwait(false);
        Lead(http, Id(http), []);
    }

    private static CoatScanException Nothing(HttpContext http) => new(
        ErrorReason.PhotoCountOutOfRange,
        PageWriter.ContextOf(http).Words.LaneNoFiles,
        "photos",
        new Dictionary<string, string> { ["value"] = "0" });

    private static string Short(string name) => name.Length > 255 ? name[..255] : name;

    private static void Lead(HttpContext http, string id, List<(string FileName, CoatScanException Refusal)> refused)
    {
        http.Response.StatusCode = StatusCodes.Status303SeeOther;
        http.Response.Headers.Location = QueryHelpers.AddQueryString(
            $"/lanes/{id}", refused.Take(RefusedShown).Select(one => new KeyValuePair<string, string?>("refused", one.FileName)));
    }
}
