using System.Text.Json;
using CoatScan.Broker;
using CoatScan.Findings;
using CoatScan.RealServers;
using RabbitMQ.Client;

namespace CoatScan.BatchesTests;

/// <summary>What is said to others about items that are at rest.</summary>
public sealed class BrokerAnnouncementTests(SharedServers servers) : BrokerTest(servers)
{
    [Fact]
    public async Task Graded_and_failed_items_are_announced_as_cloud_events()
    {
        await using var channel = await OpenChannelAsync();
        await HandOuts.Connect(1).CheckAsync(None);
        var queue = (await channel.QueueDeclareAsync()).QueueName;
        await channel.QueueBindAsync(queue, Names.Announcements, "local.*");
        var other = (await channel.QueueDeclareAsync()).QueueName;
        await channel.QueueBindAsync(other, Names.Announcements, "*.failed");
        await RunningAsync(3);
        var connection = HandOuts.Connect(1);
        var grader = new FakeGrader(item => item.Key == "item-1"
            ? throw new CoatScanException(ErrorReason.PhotoTruncated, "The photo is cut.")
            : Task.CompletedTask);
        await using var announcer = new BrokerAnnouncer(connection);
        await using var engine = Engine(1, grader, HandOuts.Open(connection), announcer);

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
}
