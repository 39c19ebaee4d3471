using System.Text;
using System.Text.Json;
using CoatScan.Batches;
using CoatScan.Broker;
using CoatScan.Findings;
using CoatScan.RealServers;
using RabbitMQ.Client;

namespace CoatScan.BatchesTests;

/// <summary>What is particular to the broker: lost, foreign and undeliverable messages, restarts, announcements.</summary>
public sealed class BrokerTests(SharedServers servers) : IAsyncLifetime
{
    private static readonly CancellationToken None = CancellationToken.None;

    private LedgerUnderTest _store = null!;
    private BrokerHandOuts _handOuts = null!;
    private IConnection? _outsider;

    private IBatchLedger Ledger => _store.Ledger;

    public async ValueTask InitializeAsync()
    {
        _handOuts = await BrokerHandOuts.OpenAsync(servers);
        _store = await SqliteLedger.OpenAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (_outsider is not null)
        {
            await _outsider.DisposeAsync();
        }

        if (_handOuts is not null)
        {
            await _handOuts.DisposeAsync();
            await _store.DisposeAsync();
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Broker_that_ends_in_mid_batch_and_comes_back_costs_no_item(bool kill)
    {
        const int count = 200;
        await using var server = await SharedServers.OwnRabbitAsync();
        await using var handOuts = BrokerHandOuts.On(server);
        await RunningAsync(count);
        var grader = new FakeGrader(_ => Task.Delay(100, None));
        await using var engine = Engine(2, grader, handOuts.Open(2));
        engine.Start();
        await UntilAsync(() => Task.FromResult(grader.Count >= 10));

        // The broker notes a new queue on disk when its register has been idle for 500 ms (ra_directory: dets, auto_save). Killed
        // before, it is another case, with a test of its own.
        await Task.Delay(TimeSpan.FromSeconds(5), None);
        await (kill ? server.KillAsync() : server.StopAsync());
        await UntilAsync(() => Task.FromResult(!handOuts.Reports.IsEmpty));
        await server.StartAgainAsync();

        var rest = await RestAsync();
        await engine.StopAsync();
        Assert.Equal((count, 0), (rest.GradedCount, rest.FailedCount));
        Assert.Equal(count, _store.CountFindings());
    }

    [Fact]
    public async Task Broker_killed_right_after_its_queues_were_made_grades_the_batch_all_the_same()
    {
        const int mostKills = 5;
        await using var server = await SharedServers.OwnRabbitAsync();
        await using var handOuts = BrokerHandOuts.On(server);
        var isSilent = false;
        for (var kill = 0; kill < mostKills && !isSilent; kill++)
        {
            await handOuts.Connect(1).CheckAsync(None);
            await server.KillAsync();
            await server.StartAgainAsync();
            isSilent = await IsSilentAsync(handOuts.Settings(1));
        }

        Assert.SkipUnless(isSilent, $"This broker kept its new queues over {mostKills} kills.");
        await RunningAsync(6);
        await using var engine = Engine(1, new FakeGrader(_ => Task.CompletedTask), handOuts.Open(1));
        engine.Start();
        var rest = await RestAsync();
        await engine.StopAsync();

        Assert.Equal(6, rest.GradedCount);
        Assert.Contains(handOuts.Reports, report => report is TimeoutException);
        Assert.False(await IsSilentAsync(handOuts.Settings(1)));
    }

    [Fact]
    public async Task Messages_that_get_lost_are_sent_again()
    {
        await RunningAsync(4);
        var release = new TaskCompletionSource();
        var grader = new FakeGrader(_ => release.Task);
        await using var engine = Engine(1, grader, _handOuts.Open(1));
        engine.Start();
        await using var channel = await OpenChannelAsync();
        // One is with the worker, three wait in the queue.
        await UntilAsync(async () =>
            grader.Count == 1 && (await channel.QueueDeclarePassiveAsync(Names.Items)).MessageCount == 3);

        Assert.Equal(3u, await channel.QueuePurgeAsync(Names.Items));
        release.SetResult();

        Assert.Equal(4, (await RestAsync()).GradedCount);
        await engine.StopAsync();
    }

    [Fact]
    public async Task Queue_that_is_deleted_is_made_again()
    {
        await RunningAsync(6);
        var release = new TaskCompletionSource();
        var grader = new FakeGrader(_ => release.Task);
        await using var engine = Engine(1, grader, _handOuts.Open(1));
        engine.Start();
        await UntilAsync(() => Task.FromResult(grader.Count == 1));

        await using (var channel = await OpenChannelAsync())
        {
            await channel.QueueDeleteAsync(Names.Items);
        }

        release.SetResult();
        Assert.Equal(6, (await RestAsync()).GradedCount);
        await engine.StopAsync();
    }

    [Fact]
    public async Task Message_that_is_none_of_ours_is_dropped()
    {
        await RunningAsync(0);
        await using var engine = Engine(1, new FakeGrader(_ => Task.CompletedTask), _handOuts.Open(1));
        engine.Start();
        await using var channel = await OpenChannelAsync();
        await UntilAsync(() => ExistsAsync(Names.Items));

        foreach (var body in new[] { "", "{", "{}", "null", """{"tenant":"a/b","batch":"b","key":"k","suspect":false,"fence":1}""" })
        {
            await channel.BasicPublishAsync("", Names.Items, Encoding.UTF8.GetBytes(body));
            await channel.BasicPublishAsync("", Names.GivenUp, Encoding.UTF8.GetBytes(body));
        }

        await RunningAsync(3, "after");
        await UntilAsync(async () => (await Ledger.GetAsync("after", None)).GradedCount == 3);
        await engine.StopAsync();
        await _handOuts.DisposeAsync();
        Assert.Equal(0u, (await channel.QueueDeclarePassiveAsync(Names.Items)).MessageCount);
        Assert.Equal(0u, (await channel.QueueDeclarePassiveAsync(Names.GivenUp)).MessageCount);
    }

    [Fact]
    public async Task Item_whose_every_process_ends_before_it_claims_it_fails_with_worker_lost()
    {
        await RunningAsync(1);
        var ready = (await Ledger.ListReadyAsync(1, None)).Single();
        await _handOuts.Connect(1).CheckAsync(None);
        await using (var channel = await OpenChannelAsync())
        {
            await channel.BasicPublishAsync(
                "",
                Names.Items,
                Encoding.UTF8.GetBytes($$"""{"tenant":"local","batch":"lots","key":"{{ready.Item.Key}}","suspect":false,"fence":0}"""));
            // As processes that end with the message in hand.
            var deliveries = 0;
            while ((await channel.QueueDeclarePassiveAsync(Names.GivenUp)).MessageCount == 0)
            {
                if (await channel.BasicGetAsync(Names.Items, autoAck: false) is { } message)
                {
                    deliveries++;
                    await channel.BasicNackAsync(message.DeliveryTag, multiple: false, requeue: true);
                }
            }

            Assert.Equal(21, deliveries);
        }

        // It works on nothing, but closes what nobody could claim.
        await using var engine = Engine(1, new FakeGrader(_ => Task.Delay(Timeout.Infinite, None)), new NeverReady(_handOuts.Open(1)));
        engine.Start();
        var rest = await RestAsync();
        await engine.StopAsync();

        var item = (await Ledger.ListItemsAsync("lots", [], 0, "", None)).Rows.Single();
        Assert.Equal((ItemState.Failed, ErrorReason.WorkerLost), (item.State, item.Error!.Reason));
        Assert.Equal(1, rest.FailedCount);
    }

    [Fact]
    public async Task Only_one_process_feeds_and_another_takes_over_when_it_ends()
    {
        await RunningAsync(0);
        var first = _handOuts.Connect(1);
        var (one, two) = (_handOuts.Open(first), _handOuts.Open(_handOuts.Connect(1)));
        await one.WaitForRoomAsync(TimeSpan.Zero, None);
        await UntilAsync(() => Task.FromResult(one.Window > 0));
        await two.WaitForRoomAsync(TimeSpan.FromSeconds(1), None);
        Assert.Equal(0, two.Window);

        await first.DisposeAsync();

        await UntilAsync(() => Task.FromResult(two.Window > 0));
        Assert.Equal(0, one.Window);
    }

    [Fact]
    public async Task Seat_that_changed_hands_often_is_not_lost()
    {
        // A newer broker drops a message after 20 deliveries if nothing else is said.
        for (var change = 0; change < 25; change++)
        {
            var connection = _handOuts.Connect(1);
            var handOut = _handOuts.Open(connection);
            await handOut.WaitForRoomAsync(TimeSpan.Zero, None);
            await UntilAsync(() => Task.FromResult(handOut.Window > 0));
            await connection.DisposeAsync();
        }

        await using var channel = await OpenChannelAsync();
        await UntilAsync(async () => (await channel.QueueDeclarePassiveAsync(Names.Seat)).MessageCount > 0);
    }

    [Fact]
    public async Task Graded_and_failed_items_are_announced_as_cloud_events()
    {
        await using var channel = await OpenChannelAsync();
        await _handOuts.Connect(1).CheckAsync(None);
        var queue = (await channel.QueueDeclareAsync()).QueueName;
        await channel.QueueBindAsync(queue, Names.Announcements, "local.*");
        var other = (await channel.QueueDeclareAsync()).QueueName;
        await channel.QueueBindAsync(other, Names.Announcements, "*.failed");
        await RunningAsync(3);
        var connection = _handOuts.Connect(1);
        var grader = new FakeGrader(item => item.Key == "item-1"
            ? throw new CoatScanException(ErrorReason.PhotoTruncated, "The photo is cut.")
            : Task.CompletedTask);
        await using var announcer = new BrokerAnnouncer(connection);
        await using var engine = Engine(1, grader, _handOuts.Open(connection), announcer);

        engine.Start();
        await RestAsync();
        await UntilAsync(async () => (await Ledger.ListToAnnounceAsync(1, None)).Count == 0);
        await engine.StopAsync();

        var messages = new List<BasicGetResult>();
        while (await channel.BasicGetAsync(queue, autoAck: true) is { } message)
        {
            messages.Add(message);
        }

        Assert.Equal(3, messages.Count);
        Assert.Equal("local.failed", (await channel.BasicGetAsync(other, autoAck: true))!.RoutingKey);
        Assert.Null(await channel.BasicGetAsync(other, autoAck: true));
        Assert.All(messages, AssertCloudEvent);
        var events = messages.ConvertAll(message => JsonDocument.Parse(message.Body).RootElement);
        Assert.Equal(["2", "3", "4"], events.Select(one => one.GetProperty("id").GetString()));
        var items = (await Ledger.ListItemsAsync("lots", [], 0, "", None)).Rows;
        var graded = events.Single(one => one.GetProperty("subject").GetString() == "batches/lots/items/item-2");
        Assert.Equal("coatscan.item.graded.v1", graded.GetProperty("type").GetString());
        Assert.Equal("local", graded.GetProperty("tenant").GetString());
        var data = graded.GetProperty("data");
        Assert.Equal(
            ("batches/lots", "item-2", "lot-1", items[2].Finding),
            (Text(data, "batch"), Text(data, "item"), Text(data, "vehicleRef"), Text(data, "finding")));
        var failed = events.Single(one => one.GetProperty("type").GetString() == "coatscan.item.failed.v1").GetProperty("data");
        Assert.Equal("PHOTO_TRUNCATED", Text(failed.GetProperty("error"), "reason"));
        Assert.False(failed.TryGetProperty("finding", out _));
    }

    [Fact]
    public async Task CheckAsync_broker_that_cannot_be_used_is_named_without_the_password()
    {
        var settings = _handOuts.Settings(1);
        var nowhere = new UriBuilder(settings.Uri) { Port = ServerProcess.FreePort() }.Uri;
        var stranger = new UriBuilder(settings.Uri) { Password = "wrong-secret" }.Uri;
        var elsewhere = new UriBuilder(settings.Uri) { Path = "elsewhere" }.Uri;

        Assert.Equal("it cannot be reached", await WhyAsync(settings with { Uri = nowhere }));
        Assert.Equal("it refuses the user or the password", await WhyAsync(settings with { Uri = stranger }));
        Assert.Contains("vhost", await WhyAsync(settings with { Uri = elsewhere }), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Queue_of_another_kind_under_our_name_is_refused_at_start()
    {
        await using (var channel = await OpenChannelAsync())
        {
            await channel.QueueDeclareAsync(Names.Items, durable: true, exclusive: false, autoDelete: false);
        }

        Assert.Contains("PRECONDITION_FAILED", await WhyAsync(_handOuts.Settings(1)), StringComparison.Ordinal);
    }

    // CloudEvents specification, version 1.0.2: "Required attributes", "Attribute naming convention", and the JSON event
    // format 1.0.2, "Envelope" and "Handling of data".
    private static void AssertCloudEvent(BasicGetResult message)
    {
        Assert.Equal("application/cloudevents+json; charset=utf-8", message.BasicProperties.ContentType);
        Assert.True(message.BasicProperties.Persistent);
        var root = JsonDocument.Parse(message.Body).RootElement;
        Assert.Equal("1.0", Text(root, "specversion"));
        Assert.NotEmpty(Text(root, "id")!);
        Assert.NotEmpty(Text(root, "type")!);
        Assert.True(Uri.TryCreate(Text(root, "source"), UriKind.RelativeOrAbsolute, out _) && Text(root, "source")!.Length > 0);
        Assert.Equal("application/json", Text(root, "datacontenttype"));
        Assert.Equal(JsonValueKind.Object, root.GetProperty("data").ValueKind);
        Assert.All(root.EnumerateObject(), attribute => Assert.Matches("^[a-z0-9]+$", attribute.Name));
    }

    private static string? Text(JsonElement element, string name) => element.GetProperty(name).GetString();

    private (string Items, string GivenUp, string Seat, string Announcements) Names
    {
        get
        {
            var prefix = _handOuts.Settings(1).Prefix;
            return ($"{prefix}.items", $"{prefix}.given-up", $"{prefix}.feeder", $"{prefix}.findings");
        }
    }

    private static async Task<string> WhyAsync(BrokerSettings settings)
    {
        await using var connection = new BrokerConnection(settings);
        var error = await Assert.ThrowsAsync<CoatScanException>(() => connection.CheckAsync(None));
        Assert.StartsWith($"The broker 127.0.0.1:{settings.Uri.Port} cannot be used: ", error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("secret", error.Message, StringComparison.Ordinal);
        Assert.False(connection.IsOpen);
        return error.Metadata["why"];
    }

    // Whether a message to the seat, which is declared last, is not confirmed; a broker that is well does it in milliseconds.
    private static async Task<bool> IsSilentAsync(BrokerSettings settings)
    {
        await using var connection = await new ConnectionFactory
        {
            Uri = settings.Uri,
            ContinuationTimeout = TimeSpan.FromSeconds(1),
        }.CreateConnectionAsync();
        await using var channel = await connection.CreateChannelAsync(
            new CreateChannelOptions(publisherConfirmationsEnabled: true, publisherConfirmationTrackingEnabled: true));
        using var limit = new CancellationTokenSource(TimeSpan.FromSeconds(5));
        try
        {
            await channel.BasicPublishAsync("", $"{settings.Prefix}.feeder", ReadOnlyMemory<byte>.Empty, limit.Token);
            return false;
        }
        catch (OperationCanceledException)
        {
            return true;
        }
    }

    private async Task<IChannel> OpenChannelAsync()
    {
        _outsider ??= await new ConnectionFactory { Uri = _handOuts.Settings(1).Uri }.CreateConnectionAsync();
        return await _outsider.CreateChannelAsync();
    }

    private async Task<bool> ExistsAsync(string queue)
    {
        try
        {
            await using var channel = await OpenChannelAsync();
            await channel.QueueDeclarePassiveAsync(queue);
            return true;
        }
        catch (RabbitMQ.Client.Exceptions.OperationInterruptedException)
        {
            return false;
        }
    }

    private BatchEngine Engine(int workers, FakeGrader grader, IItemHandOut handOut, IAnnouncer? announcer = null) => new(
        Ledger,
        grader,
        handOut,
        _store.Tenants,
        new BatchEngineSettings("engine", workers) { LookInterval = TimeSpan.FromMilliseconds(20) },
        TimeProvider.System,
        fault => TestContext.Current.TestOutputHelper?.WriteLine(fault.Message),
        announcer);

    private async Task RunningAsync(int items, string batch = "lots")
    {
        await Ledger.CreateAsync(batch, "", null, None);
        await Ledger.AddItemsAsync(batch, Samples.Items(items), None);
        await Ledger.StartAsync(batch, null, None);
    }

    private async Task<Batch> RestAsync()
    {
        await UntilAsync(async () => (await Ledger.GetAsync("lots", None)).AtRest);
        return await Ledger.GetAsync("lots", None);
    }

    private static async Task UntilAsync(Func<Task<bool>> holds)
    {
        while (!await holds())
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }
    }

    /// <summary>A process that feeds nothing and takes nothing.</summary>
    private sealed class NeverReady(IItemHandOut inner) : IItemHandOut
    {
        public int Window => 0;

        public ValueTask HandOutAsync(ReadyItem item, CancellationToken cancellationToken) => ValueTask.CompletedTask;

        public async ValueTask<TakenItem> TakeAsync(CancellationToken cancellationToken)
        {
            await Task.Delay(Timeout.Infinite, cancellationToken);
            throw new OperationCanceledException(cancellationToken);
        }

        public ValueTask<TakenItem> TakeGivenUpAsync(CancellationToken cancellationToken) =>
            inner.TakeGivenUpAsync(cancellationToken);

        public ValueTask AcknowledgeAsync(TakenItem item) => inner.AcknowledgeAsync(item);

        public Task WaitForRoomAsync(TimeSpan longest, CancellationToken cancellationToken) =>
            Task.Delay(longest, cancellationToken);

        public ValueTask DisposeAsync() => inner.DisposeAsync();
    }
}
